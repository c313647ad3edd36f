/**
 * Banks for trimming, with every address and every word of sound chosen by the test. Lists as in
 * SoundFont 2.04, sections 4 to 7; nothing here comes from `src`.
 */
import {
  ascii,
  join,
  list,
  riff,
  u16,
  u32,
  type Part,
} from '../../instruments/soundfont/bank-bytes.ts';
import type { InstrumentPlan, PresetPlan, ZonePlan } from '../../oracle/soundfont-bytes.ts';

export interface HeaderPlan {
  readonly name?: string;
  readonly start: number;
  readonly end: number;
  /** Eight points inside at either end, if left out. */
  readonly loop?: readonly [start: number, end: number];
  readonly link?: number;
  readonly type?: number;
  readonly rate?: number;
  readonly key?: number;
  readonly cents?: number;
}

export interface TrimPlan {
  /** Chunks of INFO behind `ifil`. */
  readonly info?: readonly Part[];
  readonly presets: readonly PresetPlan[];
  readonly instruments: readonly InstrumentPlan[];
  readonly samples: readonly HeaderPlan[];
  /** Points of sound; 0: no `smpl` chunk. Point n is {@link highWord} of n, with {@link lowByte}. */
  readonly points: number;
  /** Version 2.04 with the low bytes; else version 2.01. */
  readonly sm24?: boolean;
  readonly version?: readonly [major: number, minor: number];
}

/** Words and bytes by which a point is known again; 13 and 65 536 have no common divisor. */
export const highWord = (point: number): number => (point * 13 + 7) % 65_536;
export const lowByte = (point: number): number => (point * 31 + 3) % 256;

export const irom: Part = ['irom', ascii('1MGM\0\0')];

const name20 = (name: string): Uint8Array => join(ascii(name), new Uint8Array(20 - name.length));

const zoneLists = (owners: readonly { readonly zones: readonly ZonePlan[] }[]) => {
  const first: number[] = [];
  const bags: Uint8Array[] = [];
  const gens: Uint8Array[] = [];
  const mods: Uint8Array[] = [];
  for (const { zones } of owners) {
    first.push(bags.length);
    for (const { generators, modulators = [] } of zones) {
      bags.push(u16(gens.length, mods.length));
      gens.push(...generators.map((generator) => u16(...generator)));
      mods.push(...modulators.map((modulator) => u16(...modulator)));
    }
  }
  first.push(bags.length);
  bags.push(u16(gens.length, mods.length));
  gens.push(u16(0, 0));
  mods.push(u16(0, 0, 0, 0, 0));
  return { first, bags: join(...bags), gens: join(...gens), mods: join(...mods) };
};

export const bytesOfPlan = (plan: TrimPlan): Uint8Array => {
  const outer = zoneLists(plan.presets);
  const inner = zoneLists(plan.instruments);
  const sdta: Part[] = [];
  if (plan.points > 0) {
    const words = Uint16Array.from({ length: plan.points }, (_, point) => highWord(point));
    const smpl = new Uint8Array(plan.points * 2);
    words.forEach((value, point) => smpl.set([value & 255, value >> 8], point * 2));
    sdta.push(['smpl', smpl]);
  }
  if (plan.sm24 === true) {
    // What fills an odd number up is not zero, so that it is seen if it gets in among the bytes.
    const filled = plan.points + (plan.points % 2);
    sdta.push(['sm24', Uint8Array.from({ length: filled }, (_, point) => lowByte(point))]);
  }
  const headers = plan.samples.map((sample, i) => {
    const { start, end, link = 0, type = 1, rate = 22_050, key = 60, cents = 0 } = sample;
    const [loopStart, loopEnd] = sample.loop ?? [start + 8, end - 8];
    return join(
      name20(sample.name ?? `sample ${String(i)}`),
      u32(start, end, loopStart, loopEnd, rate),
      Uint8Array.of(key, cents & 255),
      u16(link, type),
    );
  });
  const pdta: Part[] = [
    [
      'phdr',
      join(
        ...plan.presets.map(({ name, bank, program }, i) =>
          join(name20(name), u16(program, bank, outer.first[i]!), u32(1, 2, 3)),
        ),
        join(name20('EOP'), u16(0, 0, outer.first.at(-1)!), u32(0, 0, 0)),
      ),
    ],
    ['pbag', outer.bags],
    ['pmod', outer.mods],
    ['pgen', outer.gens],
    [
      'inst',
      join(
        ...plan.instruments.map(({ name }, i) => join(name20(name), u16(inner.first[i]!))),
        join(name20('EOI'), u16(inner.first.at(-1)!)),
      ),
    ],
    ['ibag', inner.bags],
    ['imod', inner.mods],
    ['igen', inner.gens],
    ['shdr', join(...headers, name20('EOS'), new Uint8Array(26))],
  ];
  const version = plan.version ?? [2, plan.sm24 === true ? 4 : 1];
  return riff(
    list('INFO', [['ifil', u16(...version)], ...(plan.info ?? [])]),
    list('sdta', sdta),
    list('pdta', pdta),
  );
};
