import { machineMemory } from '../memory/machine-memory.ts';
import { doubtNames, doubtSet, namesOf, type DoubtName, type DoubtSet } from '../terms/doubt.ts';
import type { Settlement } from '../terms/settlement.ts';
import { decide, loadedUnder, settledAsPlain, type Decision, type Subject } from './decision.ts';
import { why } from './keep-set.ts';
import type { Plan, PlanDoubt } from './plan.ts';

/** The largest group of doubts that is priced as one. */
const groupLimit = 3;

interface Cost {
  readonly zones: number;
  readonly bytes: number;
}

/**
 * What doubts cost (design, section 6): F(T) = bytes kept under the open doubts less bytes kept
 * without those in T, over all machines. A doubt settled as plain shows what that freed.
 */
export const priceDoubts = (
  subjects: readonly Subject[],
): Pick<Plan, 'doubts' | 'together' | 'doubtsAll'> => {
  const costs = new Costs(subjects);
  const none: DoubtSet = 0;
  const now = costs.of(none, none);
  const freed = new Map<DoubtSet, number>();
  const price = (set: DoubtSet): number => {
    let bytes = freed.get(set);
    if (bytes === undefined) freed.set(set, (bytes = now.bytes - costs.of(set, none, true).bytes));
    return bytes;
  };
  const occurring = costs.occurring.reduce((all, set) => all | set, 0);
  const priced = namesOf(occurring).map((name): PlanDoubt => {
    const own = doubtSet(name);
    const settled = costs.answer(name);
    const [more, less] =
      settled === 'plain'
        ? [costs.of(none, own), now]
        : [now, costs.of(own, none, settled === null)];
    return { name, settled, zones: more.zones - less.zones, bytes: more.bytes - less.bytes };
  });
  const open = priced.filter(({ settled }) => settled === null).map(({ name }) => name);
  return {
    doubts: priced.sort((a, b) => b.bytes - a.bytes || rank(a.name) - rank(b.name)),
    together: groups(open)
      .map((names) => ({ names, bytes: price(doubtSet(...names)) }))
      .filter(({ names, bytes }) => splits(names).every(([a, b]) => bytes > price(a) + price(b)))
      .sort((a, b) => b.bytes - a.bytes || a.names.length - b.names.length),
    doubtsAll: now.bytes - costs.of(occurring, none).bytes,
  };
};

/** The doubts through which something is reached, whether they are answered or not. */
export const occurringDoubts = ({ tally: { reach, copies } }: Subject): DoubtSet =>
  // What all copies together reach plainly, one of them may reach only through a doubt.
  [reach, ...copies.flatMap((copy) => copy.reach ?? [])]
    .flatMap(({ zones, mutes, widened }) => [...zones, ...mutes, ...widened])
    .flat()
    .reduce((all, set) => all | set, 0);

/** Bytes and zones kept when answers change; a decision is made once for each set that matters. */
class Costs {
  /** Per subject, the doubts that occur there. */
  readonly occurring: readonly DoubtSet[];
  readonly #subjects: readonly Subject[];
  readonly #settled: readonly DoubtSet[];
  /** Per subject, the doubts that have an answer there. */
  readonly #answered: readonly DoubtSet[];
  readonly #machines: readonly string[];
  readonly #decisions: readonly Map<DoubtSet, Decision>[];
  readonly #bytes = new Map<string, number>();

  constructor(subjects: readonly Subject[]) {
    this.#subjects = subjects;
    this.#settled = subjects.map(({ settle }) => settledAsPlain(settle));
    this.#answered = subjects.map(({ settle }) =>
      doubtSet(...doubtNames.filter((name) => settle[name] !== undefined)),
    );
    this.#machines = [...new Set(subjects.map(({ machine }) => machine))];
    this.#decisions = subjects.map(() => new Map<DoubtSet, Decision>());
    this.occurring = subjects.map(occurringDoubts);
  }

  /** How a doubt was answered where it occurs: null while it is open anywhere. */
  answer(name: DoubtName): Settlement | null {
    const answers = this.#subjects
      .filter((_, i) => (this.occurring[i]! & doubtSet(name)) !== 0)
      .map(({ settle }) => settle[name] ?? null);
    if (answers.includes(null)) return null;
    return answers.includes('plain') ? 'plain' : 'accept';
  }

  /**
   * @param also doubts taken as plain beside those that are settled so
   * @param reopened doubts whose answer `plain` is taken back
   * @param onlyOpen `also` counts only where the doubt has no answer of its own
   */
  of(also: DoubtSet, reopened: DoubtSet, onlyOpen = false): Cost {
    const sets = this.#subjects.map((_, i) => {
      const taken = onlyOpen ? also & ~this.#answered[i]! : also;
      return ((this.#settled[i]! & ~reopened) | taken) & this.occurring[i]!;
    });
    let zones = 0;
    sets.forEach((set, i) => {
      for (const reason of this.#decision(i, set).whole.why)
        zones += Number(reason !== why.dropped);
    });
    const bytes = this.#machines.reduce((sum, machine) => sum + this.#machine(machine, sets), 0);
    return { zones, bytes };
  }

  #machine(machine: string, sets: readonly DoubtSet[]): number {
    const members = this.#subjects.flatMap((subject, i) =>
      subject.machine === machine ? [i] : [],
    );
    const key = `${machine}\n${members.map((i) => sets[i]).join(' ')}`;
    let bytes = this.#bytes.get(key);
    if (bytes === undefined) {
      const loaded = members.map((i) =>
        loadedUnder(this.#subjects[i]!, this.#decision(i, sets[i]!)),
      );
      this.#bytes.set(key, (bytes = machineMemory(loaded).bytes));
    }
    return bytes;
  }

  #decision(subject: number, excluded: DoubtSet): Decision {
    const known = this.#decisions[subject]!;
    let found = known.get(excluded);
    if (found === undefined) {
      known.set(excluded, (found = decide(this.#subjects[subject]!, excluded)));
    }
    return found;
  }
}

const rank = (name: DoubtName): number => doubtNames.indexOf(name);

/** All groups of two or three, in order. */
const groups = (names: readonly DoubtName[]): readonly (readonly DoubtName[])[] => {
  const found: DoubtName[][] = [];
  const extend = (group: DoubtName[], from: number): void => {
    if (group.length >= 2) found.push(group);
    if (group.length === groupLimit) return;
    for (let i = from; i < names.length; i++) extend([...group, names[i]!], i + 1);
  };
  extend([], 0);
  return found;
};

/** Every way to part a group in two. */
const splits = (names: readonly DoubtName[]): readonly (readonly [DoubtSet, DoubtSet])[] => {
  const all = doubtSet(...names);
  return Array.from({ length: 2 ** (names.length - 1) - 1 }, (_, i) => {
    const part = doubtSet(...names.filter((_name, bit) => ((i + 1) & (1 << bit)) !== 0));
    return [part, all & ~part] as const;
  });
};
