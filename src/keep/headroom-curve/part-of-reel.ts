import type { CopyUsage, FileUsage } from '../../playback/zone-usage.ts';
import { doubtSet, plain } from '../../terms/doubt.ts';
import { settledAsPlain, type Subject } from '../decision.ts';
import type { DoubtSets } from '../doubt-sets.ts';
import type { Reach } from '../open-reach.ts';
import type { CopyTally } from '../tally.ts';
import { ChoiceKnowledge } from './known-choices.ts';
import { nearStarts, never, type NearStarts, type Room } from './near-starts.ts';

/** The headrooms that are asked for: any of the rooms with up to so many keys. */
export interface Rooms {
  /** The first is none. */
  readonly rooms: readonly Room[];
  readonly keys: number;
}

/** What one copy, or all of them together, comes near to. */
interface Near {
  /** Room by room, per start of the program. */
  readonly distances: readonly Uint8Array[];
  /** Per start, whether it is reached without a sound. */
  readonly silent: Uint8Array;
}

interface NearCopy extends Near {
  readonly name: string;
  readonly usages: readonly CopyUsage[];
}

/** What some files of the reel ask of an instrument. */
export interface Part {
  readonly whole: Near;
  /** In order of their first appearance; empty where all copies load the same. */
  readonly copies: readonly NearCopy[];
  /** Without what each reaches, in the same order. */
  readonly tallies: readonly CopyTally[];
  /** An unreadable stretch may have played anything. */
  readonly tainted: boolean;
}

const reached: DoubtSets = [plain];
const unreached: DoubtSets = [];

/**
 * An instrument over any part of the reel, at any headroom of some: the cues are not played again, and
 * each file's usage is gone through once for each state of knowledge.
 */
export class InstrumentInParts {
  readonly subject: Subject;
  readonly rooms: Rooms;
  readonly #knowledge: ChoiceKnowledge;
  readonly #near = new Map<CopyUsage, Map<string, NearStarts>>();
  readonly #usages = new Map<FileUsage, readonly CopyUsage[]>();

  /** @param subject its tally is not looked at */
  constructor(subject: Subject, rooms: Rooms) {
    this.subject = subject;
    this.rooms = rooms;
    this.#knowledge = new ChoiceKnowledge(subject.instrument);
  }

  /** Its copies in a file. */
  usages(file: FileUsage): readonly CopyUsage[] {
    let found = this.#usages.get(file);
    if (found === undefined) {
      const { id } = this.subject.instrument;
      this.#usages.set(file, (found = file.copies.filter((copy) => copy.instrument === id)));
    }
    return found;
  }

  /** @param reel all usage of the instrument that is known */
  near(copy: CopyUsage, reel: readonly CopyUsage[]): NearStarts {
    let byText = this.#near.get(copy);
    if (byText === undefined) this.#near.set(copy, (byText = new Map<string, NearStarts>()));
    const { text, reacher } = this.#knowledge.of(copy, reel);
    let found = byText.get(text);
    if (found === undefined) {
      const { instrument, settle } = this.subject;
      found = nearStarts(instrument, reacher, copy, this.rooms, settledAsPlain(settle));
      byText.set(text, found);
    }
    return found;
  }

  /** What files ask of it when nothing is known but them. @param files in reel order */
  part(files: readonly FileUsage[]): Part {
    const { instrument, player } = this.subject;
    const byCopy = new Map<string, CopyUsage[]>();
    const reel = files.flatMap((file) => this.usages(file));
    for (const usage of reel) {
      const own = byCopy.get(usage.copy);
      if (own === undefined) byCopy.set(usage.copy, [usage]);
      else own.push(usage);
    }
    const all = [...byCopy].map(([name, usages]) => ({ name, usages }));
    return {
      whole: this.#merged(reel, reel),
      copies:
        player.shares === 'copy'
          ? all.map((copy) => ({ ...copy, ...this.#merged(copy.usages, reel) }))
          : [],
      tallies: all.map(({ name, usages }) => ({
        name,
        notes: usages.reduce((sum, { notes }) => sum + notes, 0),
        damaged: usages.some(({ damaged }) => damaged),
        reach: null,
      })),
      tainted: files.some(({ tainted }) => tainted.includes(instrument.id)),
    };
  }

  /**
   * The instrument as if a part were the reel and the headroom were this.
   *
   * @param room index into the rooms
   * @param ofDamage unreadable stretches count; else they are left aside
   */
  subjectOf(part: Part, room: number, keys: number, ofDamage: boolean): Subject {
    const { settle, tally } = this.subject;
    const isTainted =
      ofDamage && part.tainted && (settledAsPlain(settle) & doubtSet('damage')) === 0;
    const reachOf = (near: Near): Reach => this.#reach(near, room, keys, isTainted);
    return {
      ...this.subject,
      tally: {
        ...tally,
        reach: reachOf(part.whole),
        copies: part.tallies.map((copy, i) => {
          const near = part.copies[i];
          return near === undefined ? copy : { ...copy, reach: reachOf(near) };
        }),
      },
    };
  }

  #merged(usages: readonly CopyUsage[], reel: readonly CopyUsage[]): Near {
    const count = this.subject.instrument.program.starts.length;
    const { rooms } = this.rooms;
    const distances = rooms.map(() => new Uint8Array(count).fill(never));
    const silent = new Uint8Array(count);
    for (const usage of usages) {
      const near = this.near(usage, reel);
      near.starts.forEach((start, i) => {
        for (let room = 0; room < rooms.length; room++) {
          const distance = near.distances[i * rooms.length + room]!;
          if (distance < distances[room]![start]!) distances[room]![start] = distance;
        }
      });
      for (const start of near.silent) silent[start] = 1;
    }
    return { distances, silent };
  }

  #reach({ distances, silent }: Near, room: number, keys: number, isTainted: boolean): Reach {
    const { zones, program } = this.subject.instrument;
    const used = distances[0]!;
    const wide = distances[room]!;
    const all = isTainted ? reached : unreached;
    const zonesReached = zones.map(() => all);
    const mutes = zones.map(() => unreached);
    program.starts.forEach(({ zone }, i) => {
      if (used[i] === 0) zonesReached[zone] = reached;
      if (silent[i] === 1) mutes[zone] = reached;
    });
    return {
      zones: zonesReached,
      mutes,
      starts: program.starts.map((_, i) => (used[i] === 0 ? reached : all)),
      widened: program.starts.map((_, i) => (wide[i]! <= keys ? reached : unreached)),
    };
  }
}
