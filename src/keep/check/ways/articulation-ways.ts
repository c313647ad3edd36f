import { withArticulation } from '../../../instruments/fixed-articulation.ts';
import { everyArticulation, type Instrument } from '../../../instruments/instrument.ts';
import type { Program, Start } from '../../../instruments/program.ts';
import { prepare } from '../../../playback/prepared-program.ts';
import { contains } from '../../../terms/range.ts';
import type { Reacher } from '../../reacher.ts';
import type { WayOut } from '../check.ts';
import { heard } from './outcome.ts';
import { noteNumber, type PlayedClass, type PlayedCopy } from './played-copy.ts';
import type { Played } from './played.ts';

/** More articulations than this are not listed. */
const most = 3;

/** Other articulations in which the keys of a miss would do. */
export class ArticulationWays {
  readonly #played: Played;
  readonly #instrument: Instrument;
  readonly #strikes: readonly (readonly (readonly Strike[])[])[];
  readonly #reachers = new Map<number, Reacher>();
  readonly #does = new Map<string, boolean>();
  readonly #numbers = new Map<PlayedCopy, number>();

  constructor(played: Played, instrument: Instrument) {
    this.#played = played;
    this.#instrument = instrument;
    this.#strikes = strikesOf(instrument);
    played.copies.forEach((copy, i) => this.#numbers.set(copy, i));
  }

  of(asking: readonly PlayedClass[]): readonly WayOut[] {
    if (asking.some(({ class: { event } }) => event === 'change')) return [];
    const copies = this.#played.concerned(asking);
    if (copies.some(({ isRetuned }) => isRetuned)) return [];
    const notes = new Map(
      asking.map(({ class: { key, velocity } }) => [
        noteNumber(key, velocity),
        [key, velocity] as const,
      ]),
    );
    const own = [...notes.values()].flatMap(([key, velocity]) =>
      copies
        .filter((copy) => copy.ofNote(key, velocity).length > 0)
        .map((copy) => ({ copy, key, velocity })),
    );
    const ways: WayOut[] = [];
    for (const [i, articulation] of this.#instrument.articulations.entries()) {
      if (ways.length === most) break;
      if (copies.some(({ usage }) => usage.articulation === articulation.name)) continue;
      if (articulation.name === everyArticulation) continue;
      if (!own.every((note) => this.#doesIn(i, note))) continue;
      ways.push({
        kind: 'articulation',
        articulation: articulation.name,
        switch: articulation.switch,
      });
    }
    return ways;
  }

  #doesIn(articulation: number, note: Note): boolean {
    const { copy, key, velocity } = note;
    const at = [this.#numbers.get(copy), articulation, key, velocity].join(' ');
    let does = this.#does.get(at);
    if (does === undefined) {
      does = this.#mayStrike(articulation, note) && this.#playsAll(articulation, note);
      this.#does.set(at, does);
    }
    return does;
  }

  /** True where some kept zone of the articulation starts at all: seldom, so it is asked first. */
  #mayStrike(articulation: number, { copy, key, velocity }: Note): boolean {
    return this.#strikes[articulation]![key]!.some(
      ({ index, start: { zone, velocities } }) =>
        contains(velocities, velocity) && copy.isLoaded(zone, index),
    );
  }

  #playsAll(articulation: number, { copy, key, velocity }: Note): boolean {
    const program = withArticulation(this.#instrument, articulation);
    return (
      tellsApart(copy, program) &&
      copy.ofNote(key, velocity).every((one) => this.#plays(articulation, program, one))
    );
  }

  #plays(articulation: number, program: Program, { copy, class: one, now }: PlayedClass): boolean {
    let reacher = this.#reachers.get(articulation);
    if (reacher === undefined) {
      this.#reachers.set(articulation, (reacher = this.#played.reacher(program)));
    }
    const then = copy.outcome(one, copy.usage, reacher);
    if (then.missing.length > 0) return false;
    if (one.event !== 'note-on') return true;
    const asks = now.missing.length > 0 && now.heard !== heard.silence;
    return then.heard >= (asks ? heard.sound : now.heard);
  }
}

/** All notes of a key and velocity that a cue file plays on a copy. */
interface Note {
  readonly copy: PlayedCopy;
  readonly key: number;
  readonly velocity: number;
}

/** A start of the program, and its number there. */
interface Strike {
  readonly index: number;
  readonly start: Start;
}

/** By articulation and key what its notes may start. */
const strikesOf = ({
  articulations,
  program,
}: Instrument): readonly (readonly (readonly Strike[])[])[] => {
  const strikes = articulations.map(() => Array.from({ length: 128 }, (): Strike[] => []));
  program.starts.forEach((start, index) => {
    if (start.event !== 'note-on') return;
    if (articulations[start.articulation]!.name === everyArticulation) return;
    const byKey = strikes[start.articulation]!;
    const [lo, hi] = start.keys;
    for (let key = Math.max(0, lo); key <= Math.min(127, hi); key++) {
      byKey[key]!.push({ index, start });
    }
  });
  return strikes;
};

/** Usage of the copy knows everything apart that the other program tells apart. */
const tellsApart = ({ usage, program }: PlayedCopy, other: Program): boolean => {
  if (usage.articulation === null) return true;
  const own = prepare(program).bands;
  return prepare(other).bands.every((bands, signal) => {
    const edges = new Set(own[signal]!.between(-Infinity, Infinity));
    return bands.between(-Infinity, Infinity).every((edge) => edges.has(edge));
  });
};
