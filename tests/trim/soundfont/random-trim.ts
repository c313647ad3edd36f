/** Random banks whose samples overlap, lie in ROM, link anywhere and end nowhere; random keep sets. */
import fc from 'fast-check';
import { randomBank } from '../../oracle/random-bank.ts';
import type { BankPlan, Generator, InstrumentPlan } from '../../oracle/soundfont-bytes.ts';
import { ascii, type Part } from '../../instruments/soundfont/bank-bytes.ts';
import { irom, type HeaderPlan, type TrimPlan } from './bank.ts';
import { keeping } from './trimming.ts';

const types = [1, 1, 1, 2, 4, 8, 0x8001, 0x8002, 0x0010, 6];

const header = (points: number, samples: number): fc.Arbitrary<HeaderPlan> =>
  fc
    .record({
      start: fc.nat({ max: points + 20 }),
      length: fc.oneof(
        { weight: 6, arbitrary: fc.integer({ min: 48, max: 200 }) },
        { weight: 1, arbitrary: fc.integer({ min: -5, max: 5 }) },
      ),
      loop: fc.option(fc.tuple(fc.nat({ max: points + 99 }), fc.nat({ max: points + 99 }))),
      link: fc.nat({ max: samples }),
      type: fc.constantFrom(...types),
      cents: fc.integer({ min: -50, max: 50 }),
    })
    .map(({ start, length, loop, ...rest }) => {
      const end = Math.max(start + length, 0);
      return { ...rest, start, end, loop: loop ?? [start + 8, Math.max(end - 8, 0)] };
    });

/** Start, end and loop offsets, small enough to stay near the sample, now and then far off. */
const offsets: fc.Arbitrary<Generator> = fc
  .tuple(fc.constantFrom(0, 1, 2, 3), fc.integer({ min: -150, max: 150 }))
  .map(([operator, amount]) => [operator, amount & 0xffff]);

const withOffsets = (instruments: readonly InstrumentPlan[], all: readonly Generator[][]) => {
  let next = 0;
  return instruments.map(({ name, zones }) => ({
    name,
    zones: zones.map(({ generators, ...zone }) => {
      const extra = all[next++ % all.length]!;
      // In front of the link, behind the ranges.
      return {
        ...zone,
        generators: [...generators.slice(0, -1), ...extra, ...generators.slice(-1)],
      };
    }),
  }));
};

const info: readonly Part[] = [['isng', ascii('any\0')], ['INAM', ascii('random\0\0')], irom];

const planOf = (bank: BankPlan): fc.Arbitrary<TrimPlan> =>
  fc.integer({ min: 300, max: 601 }).chain((points) =>
    fc
      .record({
        samples: fc.array(header(points, bank.samples.length), {
          minLength: bank.samples.length,
          maxLength: bank.samples.length,
        }),
        extra: fc.array(fc.array(offsets, { maxLength: 2 }), { minLength: 1, maxLength: 5 }),
      })
      .map(({ samples, extra }) => ({
        info,
        points,
        sm24: bank.sm24 === true,
        presets: bank.presets,
        instruments: withOffsets(bank.instruments, extra),
        samples,
      })),
  );

const most = 16;

/** A bank and what to keep of it; all programs of presets that keep a zone are chosen, as in a reel. */
export const randomTrim = () =>
  fc
    .record({
      plan: randomBank().chain(planOf),
      loaded: fc.uniqueArray(fc.nat({ max: most }), { minLength: 4, maxLength: most }),
      presetZones: fc.uniqueArray(fc.nat({ max: most }), { minLength: 8, maxLength: most }),
      programs: fc.uniqueArray(fc.constantFrom(1, 5)),
    })
    .map(({ plan, loaded, presetZones, programs }) => {
      const chosen = new Set([0, ...programs]);
      let zone = 0;
      for (const preset of plan.presets) {
        const own = preset.zones.map(() => zone++);
        if (own.some((index) => presetZones.includes(index))) chosen.add(preset.program);
      }
      return { plan, keep: keeping(loaded, presetZones, chosen) };
    });
