import { chamberStrings } from './sfz-chamber.ts';
import { clarinet } from './sfz-clarinet.ts';
import { deckDrums } from './sfz-deck.ts';
import type { SfzFiles } from './sfz-sounds.ts';
import { upright } from './sfz-upright.ts';

/** The SFZ instruments of the demo with all of their samples, paths relative to their folder. */
export const sfzInstruments = (): readonly {
  readonly path: string;
  readonly bytes: Uint8Array;
}[] => [
  ...filesOf('chamber', chamberStrings()),
  ...filesOf('clarinet', clarinet()),
  ...filesOf('deck', deckDrums()),
  ...filesOf('upright', upright()),
];

const filesOf = (
  folder: string,
  { texts, samples }: SfzFiles,
): readonly { readonly path: string; readonly bytes: Uint8Array }[] => [
  ...texts.map(({ path, text }) => ({ path, bytes: new TextEncoder().encode(text) })),
  ...samples.map(({ name, bytes }) => ({ path: `samples/${folder}/${name}`, bytes })),
];
