import fc from 'fast-check';
import { expect, test } from 'vitest';
import { makePlan, type PlanInput } from '../../../src/keep/make-plan.ts';
import type { Plan, PlanInstrument } from '../../../src/keep/plan.ts';
import { asExported } from '../../../src/playback/play-copy.ts';
import { loadedPlan } from '../../../src/trim/worklist/loaded-state.ts';
import { inputOf, randomTemplateReel, type RandomReel } from '../../keep/random-template-reel.ts';
import { actionsOf, Session, slotOf } from './worklist-session.ts';

/** Laws of the worklist over random instruments, players and plans (the design, section 9). */

const costs = fc.record({
  perCopy: fc.constantFrom(0, 0, 1000),
  perZone: fc.constantFrom(0, 70),
  factor: fc.constantFrom(1, 1.1),
  printed: fc.boolean(),
  machines: fc.constantFrom(1, 2),
});

type Costs = typeof costs extends fc.Arbitrary<infer Value> ? Value : never;

/** Random reels on one machine or two, some of whose tracks are audio already. */
const dressed = async (reel: RandomReel, drawn: Costs): Promise<PlanInput> => {
  const input = await inputOf(reel, asExported);
  const { perCopy, perZone, factor, printed, machines } = drawn;
  const { template } = input;
  const first = template.machines[0]!;
  return {
    ...input,
    template: {
      ...template,
      machines: machines === 1 ? [first] : [first, { ...first, id: 'other' }],
      instruments: template.instruments.map((one, i) => ({
        ...one,
        machine: machines === 2 && i === 1 ? 'other' : one.machine,
        player: { ...one.player, perCopy, perZone, factor },
      })),
    },
    files: input.files.map((file) => ({
      ...file,
      copies: file.copies.map((copy) => ({ ...copy, printed: printed && copy.copy === 'Two' })),
    })),
  };
};

const hasMutes = ({ instruments }: Plan): boolean =>
  instruments.some(({ kept }) => kept.some(({ reasons }) => reasons.includes('mutes')));

/** What each copy keeps, or all of them: the plan's own words. */
const wantedOf = (planned: PlanInstrument): readonly (readonly [string, readonly number[]])[] => {
  const { id, shares, copies, kept } = planned;
  if (shares === 'machine' || copies.length === 0) {
    return [[JSON.stringify([id, null]), kept.map(({ zone }) => zone)]];
  }
  return copies.map((copy) => [JSON.stringify([id, copy.name]), copy.kept!]);
};

const ascending = (numbers: Iterable<number>): readonly number[] =>
  [...numbers].sort((a, b) => a - b);

test('sums are the machines of the plan; each dropped zone is in one line; loads come first', async () => {
  const seen = { spare: 0, mutes: 0, lines: 0, keeps: 0 };
  await fc.assert(
    fc.asyncProperty(randomTemplateReel, costs, async (reel, drawn) => {
      const session = new Session(await dressed(reel, drawn));
      const { plan } = session;
      const list = session.list();
      list.machines.forEach(({ id, bytes, actions }, m) => {
        const planned = plan.machines[m]!;
        expect(id).toBe(planned.id);
        expect({ full: bytes.full, now: bytes.now }).toEqual({
          full: planned.bytes.full,
          now: planned.bytes.full,
        });
        if (!hasMutes(plan)) expect(bytes.after).toBe(planned.bytes.kept);
        else {
          seen.mutes++;
          expect(bytes.after).toBeGreaterThanOrEqual(planned.bytes.kept);
        }
        let total = bytes.now;
        for (const action of actions) {
          total -= action.frees;
          expect(action.total).toBe(total);
        }
        expect(total).toBe(bytes.after);
      });
      const actions = actionsOf(list);
      expect(actions.map(({ number }) => number)).toEqual(actions.map((_, i) => i + 1));
      const unloaded = new Map<string, number[]>();
      for (const action of actions) {
        expect(action.does).toBe('unload');
        seen.lines++;
        if (action.spareCopies > 0) seen.spare++;
        if (action.keeps !== null) seen.keeps++;
        const slot = slotOf(action);
        unloaded.set(slot, [...(unloaded.get(slot) ?? []), ...action.zones]);
      }
      for (const planned of plan.instruments) {
        const all = [...planned.kept, ...planned.dropped].map(({ zone }) => zone);
        for (const [slot, kept] of wantedOf(planned)) {
          const dropped = all.filter((zone) => !kept.includes(zone));
          expect(ascending(unloaded.get(slot) ?? [])).toEqual(ascending(dropped));
          unloaded.delete(slot);
        }
      }
      for (const slot of unloaded.keys()) expect(slot).toContain('"spare"');
    }),
    // A plan with silent starters is rare: of this seed three of the eighty have them.
    { numRuns: 80, seed: 2 },
  );
  expect(Math.min(...Object.values(seen))).toBeGreaterThan(0);
});

test('ticks in any order reach the wanted state, and no open number changes', async () => {
  await fc.assert(
    fc.asyncProperty(
      randomTemplateReel,
      costs,
      fc.infiniteStream(fc.nat()),
      async (reel, drawn, choices) => {
        const session = new Session(await dressed(reel, drawn));
        const first = session.list();
        let list = first;
        for (;;) {
          const open = actionsOf(list);
          if (open.length === 0) break;
          const some = open.filter((_, i) => i === 0 || (choices.next().value as number) % 3 === 0);
          const at = (choices.next().value as number) % open.length;
          const ticks = new Set([...some.slice(1), open[at]!].map(({ number }) => number));
          list = session.list([...ticks]);
          expect(actionsOf(list).map(({ number, key }) => ({ number, key }))).toEqual(
            open
              .filter(({ number }) => !ticks.has(number))
              .map(({ number, key }) => ({ number, key })),
          );
        }
        expect(list.machines.map(({ bytes }) => bytes)).toEqual(
          first.machines.map(({ bytes }) => ({ ...bytes, now: bytes.after })),
        );
        const { template, instruments } = session.input;
        const loaded = loadedPlan(session.plan, template, instruments, session.ledger!, null);
        loaded.instruments.forEach((one, i) => {
          const planned = session.plan.instruments[i]!;
          expect(one.kept.map(({ zone }) => zone)).toEqual(planned.kept.map(({ zone }) => zone));
          expect(one.dropped).toEqual(planned.dropped);
          expect(one.copies.map((copy) => copy.kept)).toEqual(
            planned.copies.map((copy) => copy.kept),
          );
        });
        if (!hasMutes(session.plan)) {
          expect(loaded.machines).toEqual(session.plan.machines);
          expect(loaded.total).toEqual(session.plan.total);
          expect(loaded.instruments.map(({ bytes }) => bytes)).toEqual(
            session.plan.instruments.map(({ bytes }) => bytes),
          );
        }
      },
    ),
    { numRuns: 40 },
  );
});

test('the other way round: ticks taken back lead to the full template', async () => {
  await fc.assert(
    fc.asyncProperty(randomTemplateReel, costs, async (reel, drawn) => {
      const session = new Session(await dressed(reel, drawn));
      const first = session.list();
      const numbers = actionsOf(first).map(({ number }) => number);
      session.list(numbers);
      const back = session.list([], numbers);
      expect(back.machines).toEqual(first.machines);
      const { template, instruments } = session.input;
      const loaded = loadedPlan(session.plan, template, instruments, session.ledger!, null);
      for (const { zonesKept, zones, dropped } of loaded.instruments) {
        expect([zonesKept, dropped]).toEqual([zones, []]);
      }
      expect(loaded.machines.map(({ bytes }) => bytes.kept)).toEqual(
        session.plan.machines.map(({ bytes }) => bytes.full),
      );
    }),
    { numRuns: 25 },
  );
});

/** What is in the machines, as a person sees it who does what the list says, whenever it is done. */
class Machines {
  readonly #unloaded = new Map<string, Set<number>>();

  do(slot: string, does: 'load' | 'unload', zones: readonly number[]): void {
    const gone = this.#unloaded.get(slot) ?? new Set();
    this.#unloaded.set(slot, gone);
    for (const zone of zones) {
      if (does === 'load') gone.delete(zone);
      else gone.add(zone);
    }
  }

  loaded(slot: string, all: readonly number[]): readonly number[] {
    return all.filter((zone) => this.#unloaded.get(slot)?.has(zone) !== true);
  }
}

test('through any plans and ticks a number names one action, none is used again, and the state is what was done', async () => {
  const seen = { loads: 0, voids: 0, revived: 0 };
  const moves = fc.array(
    fc.record({
      /** Cues that the next plan is made of, by bits. */
      cues: fc.nat(31),
      ticks: fc.array(fc.nat(7), { maxLength: 12 }),
    }),
    { minLength: 3, maxLength: 8 },
  );
  await fc.assert(
    fc.asyncProperty(
      randomTemplateReel,
      costs.map((drawn): Costs => ({ ...drawn, perCopy: 0, perZone: 0, printed: false })),
      moves,
      async (reel, drawn, all) => {
        const input = await dressed(reel, drawn);
        const session = new Session(input);
        const machines = new Machines();
        const keys = new Map<number, string>();
        const gone = new Set<number>();
        let before: ReadonlyMap<string, number> = new Map();
        for (const { cues, ticks } of all) {
          const files = input.files.filter((_, i) => ((cues >> i) & 1) === 1);
          session.plan = makePlan({ ...input, files });
          const most = Math.max(0, ...keys.keys());
          const list = session.list();
          const actions = actionsOf(list);
          const isLoad = actions.map(({ does }) => does === 'load');
          if (drawn.machines === 1) {
            expect(isLoad).toEqual([...isLoad].sort((a, b) => Number(b) - Number(a)));
          }
          for (const { number, key, does } of actions) {
            if (does === 'load') seen.loads++;
            expect(keys.get(number) ?? key).toBe(key);
            if (!keys.has(number)) expect(number).toBeGreaterThan(most);
            keys.set(number, key);
            // What was open before and still is has kept its number.
            expect(before.get(key) ?? number).toBe(number);
            if (gone.delete(number)) seen.revived++;
          }
          for (const { number } of list.void) {
            seen.voids++;
            gone.add(number);
          }
          const done = actions.filter((_, i) => ticks.includes(i % 8));
          for (const action of done) {
            const { instrument: id, does, zones } = action;
            machines.do(slotOf(action), does, zones);
            // Where no cue drives a copy, the instrument goes as it is: all copies that it may have.
            if (action.copy !== null) continue;
            for (const copy of ['One', 'Two']) machines.do(JSON.stringify([id, copy]), does, zones);
          }
          const after = session.list(done.map(({ number }) => number));
          before = new Map(actionsOf(after).map(({ key, number }) => [key, number]));
          const { template, instruments } = input;
          // No proof rests on what was done to a copy that is gone.
          if (after.findings.some(({ code }) => code === 'worklist-copy-gone')) continue;
          const loaded = loadedPlan(session.plan, template, instruments, session.ledger!, null);
          for (const one of loaded.instruments) {
            const zones = [...one.kept, ...one.dropped].map(({ zone }) => zone);
            for (const [slot, kept] of wantedOf(one)) {
              // A copy that no cue drives now is none of the plan; one without copies stands for all.
              if (one.shares === 'copy' && one.copies.length === 0) continue;
              expect(ascending(kept)).toEqual(ascending(machines.loaded(slot, zones)));
            }
          }
        }
      },
    ),
    { numRuns: 35 },
  );
  expect(Math.min(...Object.values(seen))).toBeGreaterThan(0);
});
