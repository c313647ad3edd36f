import fc from 'fast-check';
import { expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { check } from '../../src/jobs/check.ts';
import { memory } from '../../src/jobs/memory.ts';
import { plan } from '../../src/jobs/plan.ts';
import { report } from '../../src/jobs/report.ts';
import { worklist } from '../../src/jobs/worklist.ts';
import type { Check, Miss } from '../../src/keep/check/check.ts';
import type { Plan } from '../../src/keep/plan.ts';
import type { ReelMemory } from '../../src/keep/reel/reel-memory.ts';
import type { Overview } from '../../src/overview/overview.ts';
import { toJson } from '../../src/report/json.ts';
import { withMessages } from '../../src/report/messages.ts';
import type { Worklist } from '../../src/trim/worklist/worklist.ts';
import { cueBytes } from '../jobs/midi-cue.ts';
import { filesOf, reel, rig } from '../keep/random-reels.ts';
import { smallRig } from './small-rig.ts';

/** Every figure of an overview against the jobs that give it by themselves. */

interface Parts {
  readonly overview: Overview;
  readonly plan: Plan;
  readonly memory: ReelMemory;
  readonly worklist: Worklist;
  readonly check: Check;
}

type FilesByPath = Readonly<Record<string, Uint8Array | string>>;

const partsOf = async (there: FilesByPath, cues: readonly string[]): Promise<Parts> => {
  const planned = await plan({ files: new MemoryFiles(there) });
  const files = new MemoryFiles({ ...there, 'keep.json': toJson(withMessages(planned)) });
  return {
    overview: await report({ files, keep: 'keep.json', cues }),
    plan: planned,
    memory: await memory({ files }),
    worklist: await worklist({ files, keep: 'keep.json', write: () => Promise.resolve() }),
    check: await check({ files, keep: 'keep.json', cues }),
  };
};

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

const unitsOf = (misses: readonly Miss[]): ReadonlyMap<string, readonly Miss[]> => {
  const units = new Map<string, Miss[]>();
  for (const miss of misses) {
    const key = `${miss.instrument} ${String(miss.unit)}`;
    units.set(key, [...(units.get(key) ?? []), miss]);
  }
  return units;
};

const agrees = ({
  overview,
  plan: planned,
  memory: needs,
  worklist: list,
  check: checked,
}: Parts) => {
  const { machines, instruments, cues, proof, actions } = overview;
  const id = (index: number): string => planned.instruments[index]!.id;

  expect(overview.total).toEqual(planned.total);
  expect([overview.doubts, overview.doubtsAll]).toEqual([planned.doubts, planned.doubtsAll]);
  expect(
    machines.map(({ id: name, budget, bytes, fits }) => ({ id: name, budget, bytes, fits })),
  ).toEqual(planned.machines);
  machines.forEach(({ id: name, peak, steps }) => {
    const all = needs.cues.map((cue) => cue.machines.find((machine) => machine.id === name)!.bytes);
    expect(peak!.bytes).toBe(Math.max(...all));
    expect(all[peak!.cue]).toBe(peak!.bytes);
    expect(steps).toBe(list.machines.find((machine) => machine.id === name)!.actions.length);
  });

  // What was checked needs some of them: those are not what to do first.
  const missed = new Map(
    overview.worklist.flatMap((one) => one.actions.map(({ number, missed: by }) => [number, by])),
  );
  const steps = list.machines
    .flatMap((machine) => machine.actions)
    .filter(({ number }) => missed.get(number) === null);
  /** What decides which steps are told as one. */
  const about = ({ number, instrument, spareCopies, unit }: (typeof steps)[number]): string => {
    const isWhole = unit.grain === 'instrument' || spareCopies > 0;
    const machine = planned.instruments.find((one) => one.id === instrument)!.machine;
    return isWhole
      ? String(number)
      : [machine, instrument, unit.microphone, ...unit.articulations].join(' / ');
  };
  const freed = new Map<string, number>();
  for (const step of steps) freed.set(about(step), (freed.get(about(step)) ?? 0) + step.frees);
  const positive = [...freed.values()].filter((frees) => frees > 0).sort((a, b) => b - a);
  expect(actions.map(({ frees }) => frees)).toEqual(positive.slice(0, 12));
  for (const { numbers, machine, instrument, frees } of actions) {
    const own = steps.filter(({ number }) => numbers.includes(number));
    expect(own.map(({ number }) => number)).toEqual(numbers);
    const [first] = own;
    expect([...new Set(own.map(about))]).toEqual([about(first!)]);
    expect(steps.filter((step) => about(step) === about(first!))).toHaveLength(numbers.length);
    expect(first!.instrument).toBe(id(instrument));
    expect(planned.instruments[instrument]!.machine).toBe(machines[machine]!.id);
    expect(sum(own.map((step) => step.frees))).toBe(frees);
  }
  expect(
    overview.worklist.map(({ id: machine, budget, bytes, actions: own, unlisted }) => ({
      ...{ id: machine, budget, bytes },
      left: unlisted.steps,
      actions: own.map(({ number, zones, frees, total }) => [number, zones, frees, total]),
    })),
  ).toEqual(
    list.machines.map(({ actions: own, ...machine }) => ({
      ...machine,
      left: 0,
      actions: own.map(({ number, zones, frees, total }) => [number, zones.length, frees, total]),
    })),
  );

  instruments.forEach((one, i) => {
    const own = planned.instruments[i]!;
    expect([one.id, one.zones, one.zonesKept, one.bytes]).toEqual([
      ...[own.id, own.zones, own.zonesKept, own.bytes],
    ]);
    expect(machines[one.machine]!.id).toBe(own.machine);
    for (const { name, zones } of one.doubts) {
      expect(zones).toBe(own.kept.filter(({ reasons }) => reasons.includes(name)).length);
    }
    const { choosing, doubtful, nothing } = one.otherNotes;
    // What every articulation starts too counts in each of them.
    const started = one.articulations.map(({ notes }) => notes);
    // A note that starts something has no other count. All articulations here start as notes begin.
    expect(choosing + doubtful + nothing + Math.max(0, ...started)).toBeLessThanOrEqual(one.notes);
    expect(one.notes - choosing - doubtful - nothing).toBeLessThanOrEqual(sum(started));
    for (const articulation of one.articulations) {
      const { rows, zones, zonesKept } = articulation;
      expect(sum(rows.map((row) => row.zones))).toBe(zones);
      expect(sum(rows.map((row) => row.zonesKept))).toBe(zonesKept);
    }
    for (const [cue, track, bar, beat, key, velocity] of one.witnesses) {
      expect(
        own.kept.some(({ witnesses }) =>
          witnesses.some(
            (witness) =>
              witness.cue === planned.cues[cue]!.id &&
              witness.trackName === overview.tracks[track] &&
              [witness.bar, witness.beat, witness.key, witness.velocity].join() ===
                [bar, beat, key, velocity].join(),
          ),
        ),
      ).toBe(true);
    }
  });

  expect(cues.map((cue) => [cue.id, cue.bytes, cue.low, cue.high, cue.load, cue.mayGo])).toEqual(
    needs.cues.map((cue) => [cue.id, cue.bytes, cue.low, cue.high, cue.load, cue.mayGo]),
  );
  cues.forEach((cue, c) => {
    const needed = needs.cues[c]!.instruments.filter(({ zones }) => zones > 0);
    expect(cue.needs.map(([instrument, bytes]) => [id(instrument), bytes])).toEqual(
      needed.map((one) => [one.id, one.bytes]),
    );
    expect(cue.machines.map(({ bytes }) => bytes)).toEqual(
      needs.cues[c]!.machines.map(({ bytes }) => bytes),
    );
  });

  expect([proof.verdict, proof.open, proof.total]).toEqual([
    ...[checked.verdict, checked.open, checked.total],
  ]);
  const units = [...unitsOf(checked.misses).values()];
  // What the same notes ask for of one instrument is one line.
  expect(proof.misses.length).toBeLessThanOrEqual(units.length);
  expect(sum(proof.misses.map(({ bytes }) => bytes))).toBe(sum(units.map(([one]) => one!.bytes)));
  const lines = proof.misses.map((one) =>
    JSON.stringify([one.instrument, one.copy, one.notes, one.doubtfulNotes, one.keys, one.places]),
  );
  const asked = proof.misses.map((one, i) => `${lines[i]!} ${JSON.stringify(one.velocities)}`);
  expect(new Set(asked).size).toBe(asked.length);
  const isPlain = ({ doubts }: Pick<Miss, 'doubts'>): boolean =>
    doubts.some(({ length }) => length === 0);
  const inDoubt = checked.misses.filter((one) => !isPlain(one));
  expect(proof.doubtfulMisses).toBe(inDoubt.length);
  expect(sum(proof.misses.map(({ doubtfulZones }) => doubtfulZones))).toBe(inDoubt.length);
  expect(sum(proof.misses.map(({ zones }) => zones))).toBe(checked.misses.length - inDoubt.length);
  const when = ({ places: [first] }: { places: Miss['places'] }): number =>
    checked.proof.cues.findIndex((cue) => cue.id === first!.cue) * 1e9 + first!.tick;
  // What notes ask for as they stand is first, each as it is heard.
  const order = proof.misses.map((one) => [Number(one.zones === 0), when(one)] as const);
  expect(order).toEqual(order.toSorted(([a, x], [b, y]) => a - b || x - y));
  const firstOf = (unit: readonly Miss[]): number => {
    const plain = unit.filter(isPlain);
    return Math.min(...(plain.length > 0 ? plain : unit).map(when));
  };
  expect(new Set(order.map(([, at]) => at))).toEqual(new Set(units.map(firstOf)));
  for (const miss of proof.misses) {
    // Units of one instrument may be heard first in the same note.
    const alike = units.filter(
      (unit) =>
        unit[0]!.instrument === miss.instrument &&
        unit[0]!.copy === miss.copy &&
        unit[0]!.bytes <= miss.bytes &&
        unit.length <= miss.zones + miss.doubtfulZones &&
        firstOf(unit) === when(miss),
    );
    const asked = alike.some((unit) => {
      const plain = unit.filter(isPlain);
      const notes = plain.map((one) => one.notes);
      return miss.notes >= Math.max(0, ...notes) && miss.notes <= sum(notes);
    });
    expect(asked).toBe(true);
    expect(miss.notes + miss.doubtfulNotes).toBeGreaterThan(0);
    expect(miss.zones + miss.doubtfulZones).toBeGreaterThan(0);
    expect(miss.doubts.length > 0).toBe(miss.doubtfulZones > 0);
    expect(miss.notes).toBeLessThanOrEqual(checked.total.notes);
    // What asks for this in doubt may ask for something else plainly.
    const mostNotes = checked.total.notes + checked.total.doubtfulNotes;
    expect(miss.doubtfulNotes).toBeLessThanOrEqual(mostNotes);
  }
};

test(
  'agrees with plan, memory, worklist and check on random reels',
  { timeout: 120_000 },
  async () => {
    let missing = 0;
    await fc.assert(
      fc.asyncProperty(rig, reel, reel, async (own, tracks, later) => {
        const parts = await partsOf(
          { ...filesOf(own, tracks), 'later/1m1 v2.mid': cueBytes(later) },
          ['later'],
        );
        missing += parts.overview.proof.misses.length;
        agrees(parts);
      }),
      { seed: 4, numRuns: 25 },
    );
    expect(missing).toBeGreaterThan(10);
  },
);

test('agrees with them on the small rig', async () => {
  agrees(await partsOf(smallRig, ['later']));
});
