/** The plan of a cue that all of its parts play from: sections, bars, chords. */

/** Ticks of a quarter note in every cue. */
export const quarter = 480;

/** The lowest and highest key a part uses. */
export type Span = readonly [lo: number, hi: number];

export interface Section {
  readonly name: string;
  readonly bars: number;
  readonly meter: readonly [beats: number, unit: 4 | 8];
  /** Beats a minute: quarters, or dotted quarters when the unit is an eighth. */
  readonly tempo: number;
  /** The tempo it slows down to in its last two bars. */
  readonly slowsTo?: number;
  /** One chord a bar as a step of the scale from 0 (the tonic), repeated as needed. */
  readonly chords: readonly number[];
  /** The velocity around which the section is played. */
  readonly loud: number;
}

export interface Bar {
  readonly section: number;
  readonly tick: number;
  readonly length: number;
  /** Ticks of one felt beat. */
  readonly beat: number;
  readonly chord: number;
  readonly loud: number;
  /** Last bar of a phrase of four, or of its section. */
  readonly closes: boolean;
}

export interface Sketch {
  /** 0 to 11, C being 0. */
  readonly tonic: number;
  readonly minor: boolean;
  readonly sections: readonly Section[];
  /** The count-in bar is not among them: the first bar starts after it. */
  readonly bars: readonly Bar[];
  /** Where all tracks end: one bar after the last one, for the sound to die away. */
  readonly end: number;
}

const beatTicks = ({ meter: [, unit] }: Section): number =>
  unit === 8 ? (3 * quarter) / 2 : quarter;

const barTicks = ({ meter: [beats, unit] }: Section): number => (beats * quarter * 4) / unit;

/** Lays sections out in time, after one empty bar in the meter of the first. */
export const sketch = (tonic: number, minor: boolean, sections: readonly Section[]): Sketch => {
  const bars: Bar[] = [];
  let tick = barTicks(sections[0]!);
  sections.forEach((section, index) => {
    for (let bar = 0; bar < section.bars; bar++) {
      bars.push({
        section: index,
        tick,
        length: barTicks(section),
        beat: beatTicks(section),
        chord: section.chords[bar % section.chords.length]!,
        loud: section.loud,
        closes: bar % 4 === 3 || bar === section.bars - 1,
      });
      tick += barTicks(section);
    }
  });
  return { tonic, minor, sections, bars, end: tick + barTicks(sections.at(-1)!) };
};

/** The bars of one section. */
export const barsOf = ({ bars }: Sketch, section: number): readonly Bar[] =>
  bars.filter((bar) => bar.section === section);

/** Tempo changes as microseconds per quarter note. */
export const tempos = (plan: Sketch): readonly (readonly [tick: number, microseconds: number])[] =>
  plan.sections.flatMap((section, index) => {
    const first = index === 0 ? 0 : barsOf(plan, index)[0]!.tick;
    const perQuarter = (tempo: number): number =>
      Math.round((60_000_000 / tempo) * (quarter / beatTicks(section)));
    const steady = [[first, perQuarter(section.tempo)]] as const;
    if (section.slowsTo === undefined) return steady;
    const [from, to] = [section.tempo, section.slowsTo];
    const last = barsOf(plan, index).at(-1)!;
    const start = last.tick - last.length;
    const steps = (2 * last.length) / (last.beat / 2);
    const slowing = Array.from({ length: steps }, (_, step): readonly [number, number] => [
      start + (step * last.beat) / 2,
      perQuarter(from + ((to - from) * (step + 1)) / steps),
    ]);
    return [...steady, ...slowing];
  });

const majorSteps = [0, 2, 4, 5, 7, 9, 11];
const minorSteps = [0, 2, 3, 5, 7, 8, 10];

/** The pitch classes of the scale, tonic first. */
export const scale = ({ tonic, minor }: Sketch): readonly number[] =>
  (minor ? minorSteps : majorSteps).map((step) => (tonic + step) % 12);

/** The pitch classes of the triad on a step of the scale, root first; in minor the fifth step has its leading note. */
export const chord = (plan: Sketch, step: number): readonly number[] => {
  const steps = scale(plan);
  const triad = [0, 2, 4].map((third) => steps[(step + third) % 7]!);
  if (plan.minor && step === 4) triad[1] = (plan.tonic + 11) % 12;
  return triad;
};

/** The keys of a span, ends included, that have one of these pitch classes. */
export const keysOf = (classes: readonly number[], [lo, hi]: Span): readonly number[] =>
  Array.from({ length: hi - lo + 1 }, (_, index) => lo + index).filter((key) =>
    classes.includes(key % 12),
  );

/** The key of a span with one of these pitch classes that lies nearest to `wanted`. */
export const nearest = (wanted: number, classes: readonly number[], span: Span): number =>
  closest(wanted, keysOf(classes, span));

/** The nearest of `keys`, the lower one of two; there must be one. */
export const closest = (wanted: number, keys: readonly number[]): number =>
  keys.reduce((best, key) => (Math.abs(key - wanted) < Math.abs(best - wanted) ? key : best));
