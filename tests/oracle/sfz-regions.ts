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
  /** Switch opcodes whose last text was no key: what stands for them was written before. */
  readonly keyless: ReadonlySet<string>;
  readonly offsets: Offsets;
}

interface Offsets {
  /** note_offset + 12 * octave_offset. */
  readonly keys: number;
  /** sw_note_offset + 12 * sw_octave_offset. */
  readonly switches: number;
}

/** The value that the file gives a controller at first. */
export interface FirstValue {
  readonly value: number;
  /** A fraction between two steps is rounded, and this is the step on its other side. */
  readonly otherStep?: number;
}

export interface OracleInstrument {
  readonly regions: readonly OracleRegion[];
  /** Every sw_default in reading order: with the key offset, and without. */
  readonly switchDefaults: readonly { readonly shifted: number; readonly unshifted: number }[];
  /** Values of set_ccN and set_hdccN by controller. */
  readonly firstValues: ReadonlyMap<number, FirstValue>;
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
  const firstValues = new Map<number, FirstValue>();
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
      const keyless = keylessOf(all);
      regions.push({ number: regions.length, opcodes: lastOf(all), keyless, offsets });
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

/** The switch opcodes whose last text is no key. */
function keylessOf(opcodes: readonly SfzOpcode[]): Set<string> {
  const last = new Map(opcodes.filter(([name]) => switchKeys.test(name)));
  return new Set([...last].filter(([, value]) => keyOf(value) === null).map(([name]) => name));
}

function readControl(
  opcodes: readonly SfzOpcode[],
  control: Map<string, number>,
  firstValues: Map<number, FirstValue>,
): void {
  for (const [name, value] of opcodes) {
    const real = realOf(value);
    if (real === null) continue;
    control.set(name, Math.trunc(real));
    const [, high, number] = /^set_(hd)?cc(\d+)$/.exec(name) ?? [];
    if (number === undefined) continue;
    firstValues.set(Number(number), high === undefined ? { value: step(real) } : nearest(real));
  }
}

function step(real: number): number {
  return Math.min(Math.max(Math.trunc(real), 0), 127);
}

/** A fraction of 127: rounded, and on the other side where it is not whole. */
function nearest(fraction: number): FirstValue {
  const exact = Math.min(Math.max(fraction * 127, 0), 127);
  const value = Math.round(exact);
  if (Math.abs(exact - value) < 1e-9) return { value };
  return { value, otherStep: value > exact ? value - 1 : value + 1 };
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

/**
 * A key of some sw_ opcode; `shifted`: with the offset of the playing keys too. -1 is no key, so that
 * no offset makes it one.
 */
export function switchKey(
  region: OracleRegion,
  name: string,
  shifted: boolean,
): number | undefined {
  const text = region.opcodes.get(name);
  if (text === undefined) return undefined;
  const key = keyOf(text)!;
  return key === -1 ? key : key + region.offsets.switches + (shifted ? region.offsets.keys : 0);
}

/** Whether a switch is written that no key can be, all offsets added. */
export function isNoKey(region: OracleRegion, name: string): boolean {
  const key = switchKey(region, name, true);
  return key !== undefined && (key < 0 || key > 127 || region.keyless.has(name));
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
