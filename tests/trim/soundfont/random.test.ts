import fc from 'fast-check';
import { SoundFont2 } from 'soundfont2';
import { expect, test } from 'vitest';
import { namesOf } from '../../../src/terms/doubt.ts';
import { InputError } from '../../../src/terms/errors.ts';
import { readBank as readOracle, type OracleZones } from '../../oracle/soundfont-bank.ts';
import { readBank } from '../../instruments/soundfont/reading.ts';
import { wordsOf, zonesByIndex, type RawZone } from './naive-reader.ts';
import { randomTrim } from './random-trim.ts';
import { everything, trimPlan, type Result } from './trimming.ts';
import type { TrimSet } from '../../../src/trim/trim-set.ts';

/** Any bank, any keep set; a set that leaves nothing is refused and has nothing to judge. */
const judged = async (judge: (result: Result, keep: TrimSet) => void | Promise<void>) => {
  let trims = 0;
  await fc.assert(
    fc.asyncProperty(randomTrim(), async ({ plan, keep }) => {
      let result: Result;
      try {
        result = await trimPlan(plan, keep);
      } catch (error) {
        if (error instanceof InputError && error.finding.code === 'trim-nothing') return;
        throw error;
      }
      trims++;
      await judge(result, keep);
    }),
    { numRuns: 200 },
  );
  expect(trims).toBeGreaterThan(100);
};

const link = 53;
const targetOf = ({ generators }: RawZone, operator = link): number =>
  generators.find(([own]) => own === operator)![1];
/** Generators without where they lead. */
const shape = ({ generators }: RawZone) =>
  generators.map(([operator, amount]) => (operator === link ? operator : [operator, amount]));

test('kept zones have the generators, modulators, headers and words they had', () =>
  judged(({ before, after, trimmed }, keep) => {
    const old = zonesByIndex(before.instruments);
    const now = zonesByIndex(after.instruments);
    const led = [...old].filter(([, { generators }]) => generators.some(([own]) => own === link));
    expect([...trimmed.zones.keys()]).toEqual(
      led.map(([index]) => index).filter((index) => keep.loaded.has(index)),
    );
    const points = (before.smpl?.length ?? 0) / 2;
    for (const [from, to] of trimmed.zones) {
      const [a, b] = [old.get(from)!, now.get(to)!];
      expect(shape(b)).toEqual(shape(a));
      expect(b.modulators).toEqual(a.modulators);
      expect(b.owner.name).toBe(a.owner.name);
      const [x, y] = [before.samples[targetOf(a)]!, after.samples[targetOf(b)]!];
      expect([y.name, y.sound]).toEqual([x.name, x.sound]);
      if ((x.type & 0x8000) !== 0) {
        expect([y.start, y.end, y.loop]).toEqual([x.start, x.end, x.loop]);
        continue;
      }
      const shift = x.start - y.start;
      expect(y.end).toBe(Math.max(x.end - shift, 0));
      expect(y.loop.map((at) => Math.sign(at - y.start))).toEqual(
        x.loop.map((at) => Math.sign(at - x.start)),
      );
      // An empty sample may lie behind all sound; others have their words and those behind them.
      expect(
        wordsOf(after, y.start, Math.min(y.start + x.end - x.start + 46, points - shift)),
      ).toEqual(wordsOf(before, x.start, x.end + 46));
      // A sample that ends in the sound, or behind it, does so still.
      expect(y.end * 2 > (after.smpl?.length ?? 0)).toBe(x.end > points);
    }
  }));

test('nothing else is kept: samples, instruments, presets', () =>
  judged(({ before, after, trimmed }, keep) => {
    const now = zonesByIndex(after.instruments);
    const standing = [...trimmed.zones.values(), ...trimmed.places];
    const used = standing.map((index) => targetOf(now.get(index)!));
    expect([...new Set(used)].sort((a, b) => a - b)).toEqual(after.samples.map((_, i) => i));
    const live = new Set([...trimmed.zones.values()].map((index) => now.get(index)!.owner));
    expect(live.size).toBe(after.instruments.length);
    for (const [index, zone] of now) {
      if (standing.includes(index)) continue;
      expect(zone.generators.some(([operator]) => operator === link)).toBe(false);
    }
    const chosen = (bank: typeof before) =>
      bank.presets
        .filter(({ rest }) => keep.programs.has(Number.parseInt(rest.slice(0, 2), 16)))
        .map(({ name, rest }) => name + rest);
    expect(chosen(after)).toEqual(chosen(before));
    expect(after.presets.length).toBe(chosen(after).length);
  }));

test('global zones are what they were, as a naive reader has it', () =>
  judged(({ bytesBefore, bytes, trimmed }) => {
    const [before, after] = [readOracle(bytesBefore), readOracle(bytes)];
    const ownerOf = (owners: readonly OracleZones[], zone: number) =>
      owners.find(({ locals }) => locals.some(({ index }) => index === zone))!;
    for (const [from, to] of trimmed.zones) {
      const a = ownerOf(before.instruments, from).global;
      const b = ownerOf(after.instruments, to).global;
      const neutral = new Map([[43, 127 << 8]]);
      if (a === null && b !== null) expect(b.amounts).toEqual(neutral);
      else expect(b?.amounts).toEqual(a?.amounts);
    }
  }));

/** Who starts, when, through which preset: the preset's own zones that were dropped left out. */
const startsOf = async (bytes: Uint8Array, counts: (zone: number, through: number) => boolean) => {
  const { program, zones, presetZones, articulations } = await readBank(bytes);
  const lines: { zone: number; line: string }[] = [];
  program.starts.forEach(({ zone, keys, velocities, articulation, doubt }, i) => {
    const { id } = zones[zone]!;
    if (!counts(id, presetZones[i]!)) return;
    const preset = articulations[articulation]!.name;
    const line = [preset, ...keys, ...velocities, ...namesOf(doubt)].join(' ');
    lines.push({ zone: id, line });
  });
  return lines;
};

test('the starts of kept zones are what they were', () =>
  judged(async ({ bytesBefore, bytes, trimmed }, keep) => {
    const old = await startsOf(
      bytesBefore,
      (zone, through) => keep.loaded.has(zone) && keep.presetZones.has(through),
    );
    const now = await startsOf(bytes, (zone) => !trimmed.places.includes(zone));
    const sorted = (lines: readonly { zone: number; line: string }[]) =>
      lines.map(({ zone, line }) => `${String(zone)} ${line}`).sort();
    // Velocity 0 only: what merely holds a preset's place.
    const audible = now.filter(({ line }) => !/ 0 0 0 0( |$)/.test(line));
    expect(sorted(audible)).toEqual(
      sorted(old.map(({ zone, line }) => ({ zone: trimmed.zones.get(zone)!, line }))),
    );
  }));

test('another reader takes it, and finds the same samples', () =>
  judged(({ bytes, after }) => {
    // It takes no bank without sound, which ROM alone needs none of.
    if (after.smpl === null) return;
    const bank = new SoundFont2(bytes);
    expect(bank.presets.map(({ header }) => header.name)).toEqual(
      after.presets.map(({ name }) => name),
    );
    expect(bank.instruments.map(({ header }) => header.name)).toEqual(
      after.instruments.map(({ name }) => name),
    );
    expect(bank.samples.map(({ header }) => [header.name, header.start, header.end])).toEqual(
      after.samples.map(({ name, start, end }) => [name, start, end]),
    );
  }));

test('keeping everything loses no zone and no word of a used sample', () =>
  fc.assert(
    fc.asyncProperty(randomTrim(), async ({ plan }) => {
      const keep = everything(plan);
      const { before, after } = await trimPlan(plan, keep).catch(() => ({
        before: null,
        after: null,
      }));
      if (before === null || after.samples.length < before.samples.length) return;
      for (const { name, zones } of after.instruments) {
        const full = before.instruments.find((instrument) => instrument.name === name)!;
        const leads = (zone: RawZone): boolean => zone.generators.some(([own]) => own === link);
        expect(zones).toEqual(full.zones.filter((zone, place) => place === 0 || leads(zone)));
      }
      for (const [i, { start, end, ...sample }] of after.samples.entries()) {
        const { start: from, end: to, ...full } = before.samples[i]!;
        expect({ ...sample, loop: null }).toEqual({ ...full, loop: null });
        // One that ends before it starts is as good as empty, by how much does not matter.
        expect(Math.max(end - start, 0)).toBe(Math.max(to - from, 0));
      }
    }),
  ));
