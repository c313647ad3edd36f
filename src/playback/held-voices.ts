import type { PedalReading } from '../instruments/program.ts';
import { plain, type DoubtSet } from '../terms/doubt.ts';
import type { CopyStream } from './copy-stream.ts';
import { LetGoTick } from './let-go.ts';
import { distinctReadings, Pedals } from './pedals.ts';
import { PassingTick } from './passing-tick.ts';
import type { PreparedProgram } from './prepared-program.ts';
import { Voices, type VoicesOptions } from './voices.ts';
import { anyHold } from './zone-usage.ts';

/** The voices of one scope that one way of holding them keeps sounding. */
export interface HeldVoices {
  /** Index of the hold. */
  readonly number: number;
  /** The same for classes, or `anyHold` where there is but one. */
  readonly hold: number;
  readonly oneShot: boolean;
  /** Something starts when they are let go. */
  readonly waits: boolean;
  readonly doubt: DoubtSet;
  readonly isPlain: boolean;
  readonly pedals: Pedals;
  readonly voices: Voices;
  readonly tick: PassingTick;
  readonly letGo: LetGoTick;
  /** Holds only what another line lets go in another way: no note begins and no key goes up here. */
  readonly isAside: boolean;
  /** The lines beside this one, by the doubt that they add. */
  readonly asides: Map<DoubtSet, HeldVoices>;
}

/** A line beside another one, its pedals as they stand. */
export const asideOf = (line: HeldVoices, doubt: DoubtSet): HeldVoices => ({
  ...line,
  doubt: line.doubt | doubt,
  isPlain: false,
  pedals: line.pedals.copy(),
  voices: line.voices.aside(doubt),
  tick: new PassingTick(),
  letGo: line.letGo.copy(),
  isAside: true,
  asides: new Map(),
});

/** Per scope, every way to hold voices that can make a difference in a stream. */
export const heldVoices = (
  { program, followed, follows }: PreparedProgram,
  stream: CopyStream,
  scopes: number,
): readonly HeldVoices[][] => {
  const ways = !follows
    ? []
    : followed.flatMap((one) => {
        const { oneShot, pedals } = program.holds[one.hold]!;
        const matters = one.waits || !oneShot;
        const readings = matters
          ? distinctReadings(pedals, stream, scopes === 1)
          : pedals.slice(0, 1);
        return readings.map((reading) => ({ ...one, oneShot, reading }));
      });
  const hold = (number: number): number => (followed.length === 1 ? anyHold : number);
  return Array.from({ length: scopes }, () =>
    ways.map(({ hold: number, releases, waits, oneShot, reading }): HeldVoices => ({
      number,
      hold: hold(number),
      oneShot,
      waits,
      doubt: reading.doubt,
      isPlain: reading.doubt === plain,
      pedals: new Pedals(reading),
      voices: voicesUnder(reading, { releases, hold: hold(number), doubt: reading.doubt }),
      tick: new PassingTick(),
      letGo: new LetGoTick(),
      isAside: false,
      asides: new Map(),
    })),
  );
};

/** No voices yet, and the pedals where they are before any message. */
const voicesUnder = (reading: PedalReading, options: VoicesOptions): Voices => {
  const voices = new Voices(options);
  for (const { pedal, down } of new Pedals(reading).initial) {
    for (let channel = 0; channel < 16; channel++) voices[pedal](channel, down, 0);
  }
  return voices;
};
