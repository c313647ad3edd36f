/** What the articulations of an instrument are called. */
export interface Nouns {
  readonly title: string;
  readonly one: string;
  readonly many: string;
}

const presets: Nouns = { title: 'Preset', one: 'preset', many: 'presets' };
const articulations: Nouns = {
  title: 'Articulation',
  one: 'articulation',
  many: 'articulations',
};

/** A SoundFont calls its articulations presets. */
export const nounsOf = ({ source }: { readonly source: string }): Nouns =>
  /\.sf[23](#|$)/i.test(source) ? presets : articulations;
