/**
 * Bytes of memory, straight from the rules: loads, copies, readings, machines. Sets of zones are
 * lists of indices without repeats. Only the last step of a figure rounds, half up.
 */

export interface MemorySample {
  readonly frames: number;
  readonly channels: number;
  /** Frames in a second. */
  readonly rate: number;
  /** Bytes of one point as stored. */
  readonly width: number;
  /** False: the file is missing, or nothing is recorded (a ROM sample). */
  readonly present: boolean;
}

/** How much of a sample's start is held. */
export type Head =
  { readonly bytes: number } | { readonly frames: number } | { readonly milliseconds: number };

export interface MemoryPlayer {
  readonly id: string;
  /** Null: whole samples. */
  readonly head: Head | null;
  /** Bytes of one point in memory; null: as stored. */
  readonly width: number | null;
  readonly perZone: number;
  readonly perCopy: number;
  readonly shares: 'copy' | 'machine';
  /** Multiplies what a sample takes; 1 if left out. */
  readonly factor?: number;
  /** Bytes in a second at which it loads; not known if left out. */
  readonly loadRate?: number;
}

/** What the player showed for one copy with these zones. None: an empty copy. */
export interface Reading {
  readonly zones: readonly number[];
  readonly bytes: number;
}

export interface MemoryInstrument {
  /** Of the definition. */
  readonly sha256: string;
  readonly player: MemoryPlayer;
  readonly samples: Readonly<Record<string, MemorySample>>;
  /** The names of the samples of each zone. */
  readonly zones: readonly (readonly string[])[];
  readonly readings: readonly Reading[];
}

/** The zones that each copy needs, by itself. A copy that needs none is not loaded. */
export type CopyZones = readonly (readonly number[])[];

export interface Line {
  readonly fixed: number;
  readonly factor: number;
}

export interface Fit {
  readonly likely: Line;
  /** All that may be true, the likely one first. */
  readonly lines: readonly Line[];
  /** The worst distance of a reading from the likely line. */
  readonly residual: number;
  /** The more is loaded, the less was shown. */
  readonly contradict: boolean;
}

export interface Bytes {
  readonly likely: number;
  readonly low: number;
  readonly high: number;
}

export interface Figure extends Bytes {
  readonly basis: 'computed' | 'fitted' | 'read';
}

const nothing: Figure = { likely: 0, low: 0, high: 0, basis: 'computed' };

/** What one sample takes. */
export function load(sample: MemorySample, player: MemoryPlayer): number {
  return (player.factor ?? 1) * held(sample, player);
}

function held(sample: MemorySample, player: MemoryPlayer): number {
  if (!sample.present) return 0;
  const frame = sample.channels * (player.width ?? sample.width);
  const whole = sample.frames * frame;
  if (player.head === null) return whole;
  if ('bytes' in player.head) return Math.min(whole, player.head.bytes);
  if ('frames' in player.head) return Math.min(whole, player.head.frames * frame);
  return Math.min(whole, Math.ceil((player.head.milliseconds * sample.rate) / 1000) * frame);
}

/** X: what one copy with these zones comes to before any calibration. */
export function computed(instrument: MemoryInstrument, zones: readonly number[]): number {
  if (zones.length === 0) return 0;
  return ownCost(instrument, zones) + loads(instrument, zones);
}

/** The part that no copy shares with another. */
function ownCost({ player }: MemoryInstrument, zones: readonly number[]): number {
  return player.perCopy + player.perZone * zones.length;
}

function loads(instrument: MemoryInstrument, zones: readonly number[]): number {
  return sum(namesOf(instrument, zones).map((name) => loadOf(instrument, name)));
}

function namesOf(instrument: MemoryInstrument, zones: readonly number[]): string[] {
  return [...new Set(zones.flatMap((zone) => instrument.zones[zone] ?? []))];
}

function loadOf(instrument: MemoryInstrument, name: string): number {
  const sample = instrument.samples[name];
  return sample === undefined ? 0 : load(sample, instrument.player);
}

/** The lines that the readings allow: y is what was shown where x was computed. */
export function fit(points: readonly { readonly x: number; readonly y: number }[]): Fit {
  const line = (fixed: number, factor: number): Line => ({ fixed, factor });
  const fitted = (lines: readonly [Line, ...Line[]], contradict: boolean): Fit => ({
    likely: lines[0],
    lines,
    residual: Math.max(0, ...points.map(({ x, y }) => Math.abs(y - at(lines[0], x)))),
    contradict,
  });
  const one = ({ x, y }: { x: number; y: number }): [Line, Line] =>
    x === 0 ? [line(y, 1), line(0, 1)] : [line(0, y / x), line(y - x, 1)];

  const [first] = points;
  if (first === undefined) return fitted([line(0, 1)], false);
  const largest = points.reduce((best, point) => (point.x > best.x ? point : best), first);
  if (points.every(({ x }) => x === first.x)) return fitted(one(largest), false);

  const meanX = sum(points.map(({ x }) => x)) / points.length;
  const meanY = sum(points.map(({ y }) => y)) / points.length;
  const factor =
    sum(points.map(({ x, y }) => (x - meanX) * (y - meanY))) /
    sum(points.map(({ x }) => (x - meanX) ** 2));
  const fixed = meanY - factor * meanX;
  if (factor < 0) return fitted(one(largest), true);
  if (fixed >= 0) return fitted([line(fixed, factor)], false);
  const throughZero = sum(points.map(({ x, y }) => x * y)) / sum(points.map(({ x }) => x * x));
  return fitted([line(0, throughZero)], false);
}

function at({ fixed, factor }: Line, x: number): number {
  return fixed + factor * x;
}

function fitOf(instrument: MemoryInstrument): Fit {
  return fit(
    instrument.readings.map(({ zones, bytes }) => ({ x: computed(instrument, zones), y: bytes })),
  );
}

/** What an instrument takes on its machine. */
export function figure(instrument: MemoryInstrument, copies: CopyZones): Figure {
  const loaded = copies.filter((zones) => zones.length > 0);
  if (loaded.length === 0) return nothing;
  const { likely, lines, residual } = fitOf(instrument);
  const basis = instrument.readings.length === 0 ? 'computed' : 'fitted';

  if (instrument.player.shares === 'machine' && loaded.length > 1) {
    const cost = (line: Line) => sharedCost([{ instrument, copies: loaded, line }]);
    return { ...spread(cost(likely), lines.map(cost), residual * loaded.length), basis };
  }

  // Copies that hold their own: those that hold just what was read cost what was read.
  const readBytes = loaded.map(
    (zones) => instrument.readings.find((r) => same(r.zones, zones))?.bytes,
  );
  const read = sum(readBytes.map((bytes) => bytes ?? 0));
  const others = loaded.filter((_, copy) => readBytes[copy] === undefined);
  if (others.length === 0) {
    const bytes = rounded(read);
    return { likely: bytes, low: bytes, high: bytes, basis: 'read' };
  }
  const cost = (line: Line) => sum(others.map((zones) => at(line, computed(instrument, zones))));
  return { ...spread(cost(likely), lines.map(cost), residual * others.length, read), basis };
}

function spread(likely: number, all: readonly number[], residual: number, read = 0): Bytes {
  return {
    likely: rounded(read + likely),
    low: rounded(read + Math.max(0, Math.min(...all) - residual)),
    high: rounded(read + Math.max(...all) + residual),
  };
}

/** An instrument with the copies that are loaded, and the line that it is taken to follow. */
interface Placed {
  readonly instrument: MemoryInstrument;
  readonly copies: CopyZones;
  readonly line: Line;
}

/**
 * Copies that share their samples: all copies of an instrument hold the same zones, and each sample
 * is there once, at the highest price that any of the instruments puts on it.
 */
function sharedCost(placed: readonly Placed[]): number {
  const own = placed.map(({ instrument, copies, line }) => {
    const zones = union(copies);
    return copies.length * at(line, ownCost(instrument, zones));
  });
  const prices = new Map<string, number>();
  for (const { instrument, copies, line } of placed) {
    for (const name of namesOf(instrument, union(copies))) {
      const price = line.factor * loadOf(instrument, name);
      prices.set(name, Math.max(prices.get(name) ?? 0, price));
    }
  }
  return sum(own) + sum([...prices.values()]);
}

export interface MachineFigure extends Bytes {
  /** Judged on the high figure; null without a budget. */
  readonly fits: boolean | null;
}

/** What a machine holds, and whether it is within its budget (memory less reserve). */
export function machine(
  instruments: readonly { readonly instrument: MemoryInstrument; readonly copies: CopyZones }[],
  budget: number | null,
): MachineFigure {
  const loaded = instruments
    .map(({ instrument, copies }) => ({ instrument, copies: copies.filter((z) => z.length > 0) }))
    .filter(({ copies }) => copies.length > 0);
  const groups = new Map<string, typeof loaded>();
  loaded.forEach((one, index) => {
    const { player, sha256 } = one.instrument;
    const name = player.shares === 'machine' ? `${player.id} ${sha256}` : String(index);
    groups.set(name, [...(groups.get(name) ?? []), one]);
  });

  const figures = [...groups.values()].map((group): Bytes => {
    const [only, ...more] = group;
    if (only !== undefined && more.length === 0) return figure(only.instrument, only.copies);
    const fits = group.map(({ instrument }) => fitOf(instrument));
    const cost = (lines: readonly Line[]) =>
      sharedCost(group.map((one, index) => ({ ...one, line: lines[index]! })));
    const residual = sum(group.map(({ copies }, index) => fits[index]!.residual * copies.length));
    const all = choices(fits.map(({ lines }) => lines)).map(cost);
    return spread(cost(fits.map(({ likely }) => likely)), all, residual);
  });
  const total = {
    likely: sum(figures.map(({ likely }) => likely)),
    low: sum(figures.map(({ low }) => low)),
    high: sum(figures.map(({ high }) => high)),
  };
  return { ...total, fits: budget === null ? null : total.high <= budget };
}

/** One of each list, in every way. */
function choices<Item>(lists: readonly (readonly Item[])[]): Item[][] {
  return lists.reduce<Item[][]>(
    (chosen, list) => chosen.flatMap((items) => list.map((item) => [...items, item])),
    [[]],
  );
}

function union(copies: CopyZones): number[] {
  return [...new Set(copies.flat())];
}

function same(one: readonly number[], other: readonly number[]): boolean {
  return one.length === other.length && one.every((zone) => other.includes(zone));
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}

function rounded(bytes: number): number {
  return Math.floor(bytes + 0.5);
}
