import { plain } from '../../terms/doubt.ts';
import type { LaneGroup, LaneMessage, PrimingStep } from '../lanes.ts';
import { Performer, type Heard } from './performer.ts';
import type { Situation } from './situation.ts';
import { situationsOf } from './situations.ts';
import { stepOf } from './step-of.ts';
import { takesOf } from './takes.ts';
import { waitsOf } from './waits.ts';

/** A zone of a copy of the group. */
export interface Target {
  readonly copy: number;
  readonly zone: number;
}

/** A step, and what it is there for. */
export interface PlacedStep {
  readonly step: PrimingStep;
  readonly target: Target;
  /** Names the way that was taken, so that it can be ruled out. */
  readonly way: string;
  /** It repeats the step before. */
  readonly isRepeat: boolean;
}

/** Clean ways to a zone that are weighed against each other. */
const weighed = 6;

/** Ways that are tried for one zone at most: what is found at all is found early. */
const mostTries = 800;

/** With more zones than this the first clean way is taken. */
const manyZones = 1_500;

/** Why no step starts a zone. */
export type Failure = 'doubt' | 'others' | 'conditions';

/** Steps that start zones of a group one after another, as the plain reading has it. */
export class Sequence {
  readonly steps: PlacedStep[] = [];
  readonly failed = new Map<string, Failure>();
  readonly #performers: readonly Performer[];
  readonly #left: readonly Set<number>[];
  readonly #banned: ReadonlySet<string>;
  readonly #weighed: number;
  readonly #hopeless: ReadonlyMap<string, Failure>;
  #seconds = 0;

  /**
   * @param banned ways that are not to be taken, and zones for which none is left
   * @param hopeless zones for which none was found before: looking again would find none but by luck
   */
  constructor(
    { copies }: LaneGroup,
    banned: ReadonlySet<string>,
    hopeless: ReadonlyMap<string, Failure>,
  ) {
    this.#hopeless = hopeless;
    this.#performers = copies.map((copy) => new Performer(copy));
    this.#left = copies.map(({ wanted }) => new Set(wanted));
    this.#banned = banned;
    const all = copies.reduce((sum, { wanted }) => sum + wanted.length, 0);
    this.#weighed = all > manyZones ? 1 : weighed;
  }

  /**
   * Makes steps for every zone, neighbours in what they need one after another.
   *
   * @param isReversed controllers go down, not up: other notes are still heard then
   */
  run(isReversed: boolean): this {
    const ordered = this.#ordered();
    for (const target of isReversed ? ordered.toReversed() : ordered) {
      if (!this.#left[target.copy]!.has(target.zone)) continue;
      if (this.#banned.has(zoneText(target))) {
        this.failed.set(zoneText(target), 'others');
        continue;
      }
      const failure = this.#hopeless.get(zoneText(target)) ?? this.#prime(target);
      if (failure !== null) this.failed.set(zoneText(target), failure);
    }
    return this;
  }

  /** Of messages that put things back, those that let nothing be heard that was dropped. */
  harmless(messages: readonly LaneMessage[]): readonly LaneMessage[] {
    return messages.filter((message) =>
      this.#performers.every((one) => {
        const { state } = one;
        one.state = state.copy();
        const { strays } = one.play([message], this.#seconds);
        if (strays > 0) one.state = state;
        return strays === 0;
      }),
    );
  }

  /** Zones by what has to be set for them, then by key: what changes least stays longest. */
  #ordered(): readonly Target[] {
    const placed = this.#performers.flatMap((performer, copy) => {
      const byZone = startsByZone(performer);
      return performer.copy.wanted.map((zone) => {
        const starts = byZone.get(zone) ?? [];
        const first = starts.length === 0 ? undefined : situationsOf(performer, starts[0]!).next();
        const situation = first?.value as Situation | undefined;
        const text = situation === undefined ? '' : placeOf(situation);
        return { target: { copy, zone }, text, key: situation?.key ?? 0 };
      });
    });
    return placed
      .sort((a, b) => (a.text === b.text ? a.key - b.key : a.text < b.text ? -1 : 1))
      .map(({ target }) => target);
  }

  #prime(target: Target): Failure | null {
    const performer = this.#performers[target.copy]!;
    const starts = startsByZone(performer).get(target.zone) ?? [];
    if (starts.length === 0) return 'doubt';
    let best: { situation: Situation; text: string; heard: readonly Heard[] } | null = null;
    let score = -Infinity;
    let found = 0;
    let hasWay = false;
    let tries = 0;
    const waiting = waitsOf(performer, this.#seconds);
    for (const start of starts) {
      for (const plainly of situationsOf(performer, start)) {
        for (const waits of [null, ...waiting]) {
          const situation = { ...plainly, waits };
          tries++;
          const heard = this.#try(situation, performer);
          if (!heard[target.copy]!.zones.has(target.zone)) continue;
          hasWay = true;
          const text = `${zoneText(target)} ${wayOf(situation)}`;
          if (heard.some(({ strays }) => strays > 0) || this.#banned.has(text)) continue;
          const worth = this.#worth(heard);
          if (worth > score) {
            best = { situation, text, heard };
            score = worth;
          }
          found++;
        }
        if (found >= this.#weighed || tries >= mostTries) break;
      }
      if (found >= this.#weighed || tries >= mostTries) break;
    }
    if (best === null) return hasWay ? 'others' : 'conditions';
    this.#take(best.situation, target, best.text, performer);
    return null;
  }

  /** Plays a step without going on from it. */
  #try(situation: Situation, performer: Performer): readonly Heard[] {
    const { messages } = stepOf(situation, performer);
    return this.#performers.map((one) => {
      const { state } = one;
      one.state = state.copy();
      const heard = one.play(messages, this.#seconds);
      one.state = state;
      return heard;
    });
  }

  #worth(heard: readonly Heard[]): number {
    return heard.reduce((sum, { zones, risks }, i) => {
      const fresh = [...zones].filter((zone) => this.#left[i]!.has(zone)).length;
      return sum + fresh - risks * 1000;
    }, 0);
  }

  #take(situation: Situation, target: Target, way: string, performer: Performer): void {
    let times = 1;
    for (let turn = 0; turn < times; turn++) {
      if (turn > 0 && this.#try(situation, performer).some(({ strays }) => strays > 0)) return;
      const step = stepOf(situation, performer);
      const heard = this.#performers.map((one) => one.play(step.messages, this.#seconds));
      this.#seconds += step.seconds;
      this.steps.push({ step, target, way, isRepeat: turn > 0 });
      heard.forEach(({ zones, starts }, i) => {
        const { copy, plain: read } = this.#performers[i]!;
        const fresh = [...starts].filter((one) =>
          this.#left[i]!.has(read.program.starts[one]!.zone),
        );
        if (turn === 0) times = Math.max(times, takesOf(copy.instrument, read.program, fresh));
        for (const zone of zones) this.#left[i]!.delete(zone);
      });
    }
  }
}

export const zoneText = ({ copy, zone }: Target): string => `${String(copy)}:${String(zone)}`;

const wayOf = (one: Situation): string =>
  JSON.stringify({ ...one, source: null, knobs: [...one.knobs], atEnd: [...one.atEnd] });

/** What is costly to change comes first. */
const placeOf = ({ lane, event, knobs, before }: Situation): string =>
  JSON.stringify([lane, [...knobs].map(([knob, value]) => [knob, 20_000 + value]), event, before]);

const byZone = new WeakMap<Performer, ReadonlyMap<number, readonly StartOf[]>>();

type StartOf = Performer['plain']['program']['starts'][number];

/** Plain starts of each zone, those of a note first. */
const startsByZone = (performer: Performer): ReadonlyMap<number, readonly StartOf[]> => {
  const known = byZone.get(performer);
  if (known !== undefined) return known;
  const made = new Map<number, StartOf[]>();
  for (const start of performer.plain.program.starts) {
    if (start.doubt !== plain || start.silent === true || start.keys[0] > start.keys[1]) continue;
    const own = made.get(start.zone);
    if (own === undefined) made.set(start.zone, [start]);
    else own.push(start);
  }
  for (const list of made.values()) {
    list.sort((a, b) => Number(a.event !== 'note-on') - Number(b.event !== 'note-on'));
  }
  byZone.set(performer, made);
  return made;
};
