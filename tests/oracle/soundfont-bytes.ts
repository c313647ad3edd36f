/**
 * Writes small SoundFont 2 files from a plain description, byte by byte.
 *
 * Source: SoundFont Technical Specification 2.01 (2.04 for 24-bit samples), sections 4 to 7. Nothing
 * is put right on the way: generators come out in the order given, so a file can be made to break the
 * rules about zones.
 */

/** An operator and its amount, both 16 bits. A negative amount is written in two's complement. */
export type Generator = readonly [operator: number, amount: number];

/** Source, destination, amount, amount source, transform: five 16-bit words (section 7.4). */
export type Modulator = readonly [number, number, number, number, number];

export interface ZonePlan {
  readonly generators: readonly Generator[];
  readonly modulators?: readonly Modulator[];
}

export interface PresetPlan {
  readonly name: string;
  readonly bank: number;
  readonly program: number;
  readonly zones: readonly ZonePlan[];
}

export interface InstrumentPlan {
  readonly name: string;
  readonly zones: readonly ZonePlan[];
}

export interface SamplePlan {
  readonly name: string;
  /** Points of sound, 64 if left out; 46 zero points follow them. */
  readonly frames?: number;
  /** Header index of the other half of a stereo pair; 0 if left out. */
  readonly link?: number;
  /** 1 mono, 2 right, 4 left, 8 linked, 0x8000 added for ROM (no sound is written); 1 if left out. */
  readonly type?: number;
  /** Points a second; 22 050 if left out. */
  readonly rate?: number;
  /** The sampled key; 60 if left out. */
  readonly key?: number;
}

export interface BankPlan {
  readonly name?: string;
  /** Adds the low bytes of 24-bit samples and says version 2.04; otherwise 2.01. */
  readonly sm24?: boolean;
  readonly presets: readonly PresetPlan[];
  readonly instruments: readonly InstrumentPlan[];
  readonly samples: readonly SamplePlan[];
}

/** Generator operators that tests name (section 8.1.2). */
export const operators = { keyRange: 43, velocityRange: 44, instrument: 41, sampleId: 53 } as const;

/** The amount of a range generator: the low limit is the first byte (section 7.5, `rangesType`). */
export function range(low: number, high: number): number {
  return low | (high << 8);
}

const guardPoints = 46;

/** A whole file. */
export function writeBank(bank: BankPlan): Uint8Array {
  const sound = writeSound(bank);
  const version = bank.sm24 ? [...word(2), ...word(4)] : [...word(2), ...word(1)];
  const info = [chunk('ifil', version), chunk('isng', text('EMU8000'))];
  info.push(chunk('INAM', text(bank.name ?? 'test bank')));
  if (bank.samples.some(isRom)) {
    info.push(chunk('irom', text('ROM')), chunk('iver', [...word(1), ...word(0)]));
  }
  const sdta = [chunk('smpl', sound.high)];
  if (bank.sm24) sdta.push(chunk('sm24', sound.low));
  const lists = [list('INFO', info), list('sdta', sdta), list('pdta', writeLists(bank))];
  return Uint8Array.from(chunk('RIFF', [...fourLetters('sfbk'), ...lists.flat()]));
}

/** The nine lists of section 7, each with its terminal record. */
function writeLists(bank: BankPlan): number[][] {
  const preset = writeZones(bank.presets);
  const instrument = writeZones(bank.instruments);

  const phdr: number[] = [];
  bank.presets.forEach(({ name, bank: bankNumber, program }, index) => {
    phdr.push(...label(name), ...word(program), ...word(bankNumber));
    phdr.push(...word(preset.firstZone[index] ?? 0), ...long(0), ...long(0), ...long(0));
  });
  phdr.push(...label('EOP'), ...word(0), ...word(0), ...word(preset.zones));
  phdr.push(...long(0), ...long(0), ...long(0));

  const inst: number[] = [];
  bank.instruments.forEach(({ name }, index) => {
    inst.push(...label(name), ...word(instrument.firstZone[index] ?? 0));
  });
  inst.push(...label('EOI'), ...word(instrument.zones));

  return [
    chunk('phdr', phdr),
    chunk('pbag', preset.bags),
    chunk('pmod', preset.modulators),
    chunk('pgen', preset.generators),
    chunk('inst', inst),
    chunk('ibag', instrument.bags),
    chunk('imod', instrument.modulators),
    chunk('igen', instrument.generators),
    chunk('shdr', writeSampleHeaders(bank.samples)),
  ];
}

/** Bags, modulators and generators of all presets, or of all instruments. */
function writeZones(owners: readonly { readonly zones: readonly ZonePlan[] }[]) {
  const bags: number[] = [];
  const generators: number[] = [];
  const modulators: number[] = [];
  const firstZone: number[] = [];
  let zones = 0;
  for (const owner of owners) {
    firstZone.push(zones);
    for (const zone of owner.zones) {
      bags.push(...word(generators.length / 4), ...word(modulators.length / 10));
      for (const generator of zone.generators) generators.push(...generator.flatMap(word));
      for (const modulator of zone.modulators ?? []) modulators.push(...modulator.flatMap(word));
      zones += 1;
    }
  }
  bags.push(...word(generators.length / 4), ...word(modulators.length / 10));
  for (let byte = 0; byte < 4; byte += 1) generators.push(0);
  for (let byte = 0; byte < 10; byte += 1) modulators.push(0);
  return { bags, generators, modulators, firstZone, zones };
}

function writeSampleHeaders(samples: readonly SamplePlan[]): number[] {
  const shdr: number[] = [];
  let next = 0;
  for (const sample of samples) {
    const frames = sample.frames ?? 64;
    const start = isRom(sample) ? 0 : next;
    // The loop leaves the eight points that section 6.2 asks for on either side.
    const loop = [start + Math.min(8, frames), start + Math.max(frames - 8, 0)];
    shdr.push(...label(sample.name), ...long(start), ...long(start + frames));
    shdr.push(...loop.flatMap(long), ...long(sample.rate ?? 22_050));
    shdr.push(sample.key ?? 60, 0, ...word(sample.link ?? 0), ...word(sample.type ?? 1));
    if (!isRom(sample)) next += frames + guardPoints;
  }
  shdr.push(...label('EOS'));
  for (let byte = 20; byte < 46; byte += 1) shdr.push(0);
  return shdr;
}

/** Quiet noise that is the same each time and differs between samples, then zeros. */
function writeSound(bank: BankPlan): { high: number[]; low: number[] } {
  const high: number[] = [];
  const low: number[] = [];
  bank.samples.forEach((sample, index) => {
    if (isRom(sample)) return;
    let seed = index + 1;
    for (let frame = 0; frame < (sample.frames ?? 64); frame += 1) {
      seed = (seed * 75 + 74) % 65_537;
      high.push(...word((seed % 2001) - 1000));
      low.push(seed & 0xff);
    }
    for (let frame = 0; frame < guardPoints; frame += 1) {
      high.push(0, 0);
      low.push(0);
    }
  });
  // Version 2.04 section 6.2: half the size of smpl, rounded up to an even number.
  if (low.length % 2 === 1) low.push(0);
  return { high, low };
}

function isRom(sample: SamplePlan): boolean {
  return ((sample.type ?? 1) & 0x8000) !== 0;
}

function word(value: number): number[] {
  return [value & 0xff, (value >> 8) & 0xff];
}

function long(value: number): number[] {
  return [...word(value), ...word(value >>> 16)];
}

function fourLetters(name: string): number[] {
  return [...name].map((letter) => letter.charCodeAt(0));
}

/** A name in twenty bytes, the last of them always zero. */
function label(name: string): number[] {
  const letters = fourLetters(name).slice(0, 19);
  return [...letters, ...new Array<number>(20 - letters.length).fill(0)];
}

/** A text with one or two zeros behind it, so that its length is even (section 5.3). */
function text(value: string): number[] {
  const letters = fourLetters(value);
  return [...letters, ...(letters.length % 2 === 0 ? [0, 0] : [0])];
}

function chunk(name: string, body: readonly number[]): number[] {
  const padding = body.length % 2 === 0 ? [] : [0];
  return fourLetters(name).concat(long(body.length), body, padding);
}

function list(name: string, chunks: readonly number[][]): number[] {
  return chunk('LIST', fourLetters(name).concat(chunks.flat()));
}
