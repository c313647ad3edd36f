/**
 * From headers to regions: what each inherits, the key offsets where it stands, and what belongs to
 * the whole instrument (curves, first controller values, first switches).
 */
import type { SfzData, SfzHeader, SfzOpcode } from './sfz-data.ts';
import { integerOf, keyOf, realOf } from './sfz-numbers.ts';

export interface OracleRegion {
  /** Counts `<region>` headers in reading order. */
  readonly number: number;
  /** The text that stands in the end; `key` has become lokey and hikey; rejected values are gone. */
  readonly opcodes: ReadonlyMap<string, string>;
  readonly offsets: Offsets;
}

interface Offsets {
  /** note_offset + 12 * octave_offset. */
  readonly keys: number;
  /** sw_note_offset + 12 * sw_octave_offset. */
  readonly switches: number;
}

export interface OracleInstrument {
  readonly regions: readonly OracleRegion[];
  /** Every sw_default in reading order: with the key offset, and without. */
  readonly switchDefaults: readonly { readonly shifted: number; readonly unshifted: number }[];
  /** Values of set_ccN and set_hdccN by controller. */
  readonly firstValues: ReadonlyMap<number, number>;
  /** 128 values by curve_index. */
  readonly curves: ReadonlyMap<number, readonly number[]>;
}

const texts = ['sample', 'trigger', 'loop_mode', 'sw_vel', 'sustain_sw', 'sostenuto_sw'];
const keys = /^(key|lokey|hikey|xf(in|out)_(lo|hi)key)$/;
const switchKeys = /^sw_(lokey|hikey|last|lolast|hilast|down|up|previous|default)$/;

export function readInstrument(data: SfzData): OracleInstrument {
  const headers: SfzHeader[] = [{ name: 'control', opcodes: data.control ?? [] }, ...data.headers];
  const regions: OracleRegion[] = [];
  const switchDefaults: { shifted: number; unshifted: number }[] = [];
  const firstValues = new Map<number, number>();
  const curves = new Map<number, readonly number[]>();
  const control = new Map<string, number>();
  const above: Record<'global' | 'master' | 'group', readonly SfzOpcode[]> = {
    global: [],
    master: [],
    group: [],
  };

  for (const { name, opcodes } of headers) {
    if (name === 'control') readControl(opcodes, control, firstValues);
    const at = (opcode: string) => control.get(opcode) ?? 0;
    const offsets = {
      keys: at('note_offset') + 12 * at('octave_offset'),
      switches: at('sw_note_offset') + 12 * at('sw_octave_offset'),
    };
    for (const [opcode, value] of opcodes) {
      const key = opcode === 'sw_default' ? keyOf(value) : null;
      if (key === null) continue;
      const unshifted = key + offsets.switches;
      switchDefaults.push({ shifted: unshifted + offsets.keys, unshifted });
    }
    if (name === 'global') Object.assign(above, { global: opcodes, master: [], group: [] });
    if (name === 'master') Object.assign(above, { master: opcodes, group: [] });
    if (name === 'group') above.group = opcodes;
    if (name === 'curve') readCurve(opcodes, curves);
    if (name === 'region') {
      const all = [...above.global, ...above.master, ...above.group, ...opcodes];
      regions.push({ number: regions.length, opcodes: lastOf(all), offsets });
    }
  }
  return { regions, switchDefaults, firstValues, curves };
}

/** Later wins; a value without a number counts as absent at its place. */
function lastOf(opcodes: readonly SfzOpcode[]): Map<string, string> {
  const last = new Map<string, string>();
  for (const [name, value] of opcodes) {
    const isKey = keys.test(name) || switchKeys.test(name);
    if (!texts.includes(name) && (isKey ? keyOf(value) : realOf(value)) === null) continue;
    if (name === 'key') last.set('lokey', value).set('hikey', value);
    else last.set(name, value);
  }
  return last;
}

function readControl(
  opcodes: readonly SfzOpcode[],
  control: Map<string, number>,
  firstValues: Map<number, number>,
): void {
  for (const [name, value] of opcodes) {
    const real = realOf(value);
    if (real === null) continue;
    control.set(name, Math.trunc(real));
    const [, high, number] = /^set_(hd)?cc(\d+)$/.exec(name) ?? [];
    if (number === undefined) continue;
    const first = high === undefined ? Math.trunc(real) : Math.round(real * 127);
    firstValues.set(Number(number), Math.min(Math.max(first, 0), 127));
  }
}

function readCurve(opcodes: readonly SfzOpcode[], curves: Map<number, readonly number[]>): void {
  const given = lastOf(opcodes);
  const index = given.get('curve_index');
  if (index === undefined) return;
  const points = new Map<number, number>();
  for (const [name, value] of given) {
    const place = /^v(\d{3})$/.exec(name)?.[1];
    if (place !== undefined && Number(place) <= 127) points.set(Number(place), realOf(value)!);
  }
  curves.set(integerOf(index)!, linesThrough(points));
}

/** 128 values on straight lines between the points; 0 at 0 and 1 at 127 unless a point stands there. */
export function linesThrough(points: ReadonlyMap<number, number>): number[] {
  const all = new Map([[0, 0], [127, 1], ...points]);
  const places = [...all.keys()].sort((a, b) => a - b);
  return Array.from({ length: 128 }, (_, place) => {
    const left = places.findLast((p) => p <= place)!;
    const right = places.find((p) => p >= place)!;
    const [from, to] = [all.get(left)!, all.get(right)!];
    return left === right ? from : from + ((to - from) * (place - left)) / (right - left);
  });
}

export function integer(region: OracleRegion, name: string): number | undefined {
  const text = region.opcodes.get(name);
  return text === undefined ? undefined : integerOf(text)!;
}

export function real(region: OracleRegion, name: string): number | undefined {
  const text = region.opcodes.get(name);
  return text === undefined ? undefined : realOf(text)!;
}

/** A key of the playing range or of a key crossfade. The mark -1 ("no note") is never shifted. */
export function playingKey(region: OracleRegion, name: string): number | undefined {
  const text = region.opcodes.get(name);
  if (text === undefined) return undefined;
  const key = keyOf(text)!;
  const mark = key === -1 && (name === 'lokey' || name === 'hikey');
  return mark ? key : key + region.offsets.keys;
}

/** A key of some sw_ opcode; `shifted`: with the offset of the playing keys too. */
export function switchKey(
  region: OracleRegion,
  name: string,
  shifted: boolean,
): number | undefined {
  const text = region.opcodes.get(name);
  if (text === undefined) return undefined;
  return keyOf(text)! + region.offsets.switches + (shifted ? region.offsets.keys : 0);
}

/** The N of all opcodes that are this prefix and a number, each once. */
export function numbersOf(region: OracleRegion, ...prefixes: readonly string[]): number[] {
  const numbers = [...region.opcodes.keys()].flatMap((name) =>
    prefixes
      .filter((prefix) => name.startsWith(prefix) && /^\d+$/.test(name.slice(prefix.length)))
      .map((prefix) => Number(name.slice(prefix.length))),
  );
  return [...new Set(numbers)];
}
