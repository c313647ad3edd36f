import fc from 'fast-check';
import type { Instrument } from '../../src/instruments/instrument.ts';
import { calibrate } from '../../src/memory/calibrate.ts';
import type { Need } from '../../src/memory/reel/need.ts';
import type { ReelMember } from '../../src/memory/reel/reel-loads.ts';
import type { ZoneMask } from '../../src/memory/zone-mask.ts';
import type { Player } from '../../src/template/player.ts';
import type { MemoryInstrument, MemoryPlayer } from '../oracle/memory.ts';
import type { Reel, ReelNeed } from '../oracle/reel-memory.ts';
import { instrumentWith, reading } from './hand-made.ts';
import { definition, player, zoneMask } from './random-loaded.ts';

/** A reel as the program has it, and the same as the naive model has it. */
export interface ReelCase {
  readonly cues: number;
  readonly machines: readonly { readonly id: string; readonly budget: number | null }[];
  readonly members: readonly ReelMember[];
  readonly reel: Reel;
}

const machineIds = ['left', 'middle', 'right'];
const copyNames = ['A', 'B', 'C'];

const zonesOf = (zones: ZoneMask): number[] => [...zones.keys()].filter((z) => zones[z] === 1);

const naivePlayer = ({ head, loadRate, ...by }: Player): MemoryPlayer => ({
  id: by.id,
  head:
    head === null
      ? null
      : head.unit === 'seconds'
        ? { milliseconds: Math.round(head.seconds * 1_000) }
        : head,
  width: by.width === 'source' ? null : by.width,
  perZone: by.perZone,
  perCopy: by.perCopy,
  shares: by.shares,
  factor: by.factor,
  ...(loadRate === null ? {} : { loadRate }),
});

const naiveNeed = (need: Need): ReelNeed =>
  need.kind === 'shared'
    ? { zones: zonesOf(need.zones), copies: [...need.copies] }
    : {
        byCopy: Object.fromEntries([...need.copies].map(([name, zones]) => [name, zonesOf(zones)])),
      };

/** Copies without a zone, and zones without a copy, are among them. */
const needOf = ({ shares }: Player, zones: fc.Arbitrary<ZoneMask>): fc.Arbitrary<Need> =>
  shares === 'machine'
    ? fc
        .record({ zones, copies: fc.subarray(copyNames) })
        .map((need): Need => ({ kind: 'shared', zones: need.zones, copies: new Set(need.copies) }))
    : fc
        .dictionary(fc.constantFrom(...copyNames), zones)
        .map((all): Need => ({ kind: 'own', copies: new Map(Object.entries(all)) }));

interface Drawn {
  readonly instrument: Instrument;
  readonly by: Player;
  readonly machine: number;
  readonly needs: readonly Need[];
  readonly shown: readonly { readonly zones: ZoneMask; readonly bytes: number }[];
}

const drawn = (
  instrument: Instrument,
  players: readonly Player[],
  cues: number,
  machines: number,
  readings: number,
): fc.Arbitrary<Drawn> =>
  fc
    // Few states, so that some that are needed were read, and cues need the same.
    .tuple(fc.array(zoneMask, { minLength: 3, maxLength: 3 }), fc.constantFrom(...players))
    .chain(([some, by]) => {
      const zones = fc.constantFrom(
        some[0]!.map(() => 0),
        ...some,
      );
      return fc.record({
        instrument: fc.constant(instrument),
        by: fc.constant(by),
        machine: fc.nat(machines - 1),
        needs: fc.array(needOf(by, zones), { minLength: cues, maxLength: cues }),
        shown: fc.array(fc.record({ zones, bytes: fc.nat(40_000_000) }), { maxLength: readings }),
      });
    });

/** The readings are of articulations made for the purpose, one for each mask. */
const memberOf = ({ instrument: plain, by, machine, needs, shown }: Drawn): ReelMember => {
  const { samples, zones, sha256 } = plain;
  const states = shown.map((each, i) => ({
    name: `state ${String(i)}`,
    zones: zonesOf(each.zones),
  }));
  const instrument = instrumentWith(
    samples,
    zones.map((zone) => zone.samples),
    { sha256 },
    states,
  );
  const read = shown.map(({ bytes }, i) => reading(states[i]!.name, bytes));
  const { calibration } = calibrate(instrument, by, read, null);
  return { instrument, player: by, calibration, machine, needs };
};

const naiveInstrument = ({ instrument, by, shown }: Drawn): MemoryInstrument => ({
  sha256: instrument.sha256,
  player: naivePlayer(by),
  samples: Object.fromEntries(instrument.samples.map((sample) => [sample.name, sample])),
  zones: instrument.zones.map((zone) => zone.samples.map((s) => instrument.samples[s]!.name)),
  readings: shown.map(({ zones, bytes }) => ({ zones: zonesOf(zones), bytes })),
});

export interface ReelSize {
  readonly cues: number;
  /** Of each of two definitions. */
  readonly instruments: number;
  readonly machines: number;
  /** Of each instrument, at most. */
  readonly readings: number;
  readonly factors: readonly number[];
}

/** Reels without budgets. One player shares, another does not, and a third is the first by its name only. */
export const reelCase = (size: ReelSize): fc.Arbitrary<ReelCase> =>
  fc
    .record({
      one: player,
      rates: fc.array(fc.constantFrom(1_000_000, 7_000_000, null), { minLength: 3, maxLength: 3 }),
      factor: fc.constantFrom(...size.factors),
      some: definition(size.instruments),
      others: definition(size.instruments),
      cues: fc.integer({ min: 1, max: size.cues }),
    })
    .chain(({ one, rates, factor, some, others, cues }) => {
      const players = [
        { ...one, factor, shares: 'machine' as const, loadRate: rates[0]! },
        { ...one, factor, shares: 'machine' as const, id: 'q', loadRate: rates[1]! },
        { ...one, factor, shares: 'copy' as const, id: 'r', loadRate: rates[2]! },
      ];
      const all = [...some, ...others.map((other) => ({ ...other, sha256: 'other' }))];
      return fc
        .tuple(...all.map((each) => drawn(each, players, cues, size.machines, size.readings)))
        .map((list): ReelCase => {
          const ids = machineIds.slice(0, size.machines);
          return withBudgets(
            {
              cues,
              machines: ids.map((id) => ({ id, budget: null })),
              members: list.map(memberOf),
              reel: {
                machines: {},
                instruments: list.map((each, i) => ({
                  id: `i${String(i)}`,
                  machine: ids[each.machine]!,
                  instrument: naiveInstrument(each),
                  needs: each.needs.map(naiveNeed),
                })),
              },
            },
            ids.map(() => null),
          );
        });
    });

export const withBudgets = (each: ReelCase, budgets: readonly (number | null)[]): ReelCase => ({
  ...each,
  machines: each.machines.map(({ id }, m) => ({ id, budget: budgets[m]! })),
  reel: {
    ...each.reel,
    machines: Object.fromEntries(each.machines.map(({ id }, m) => [id, budgets[m]!])),
  },
});
