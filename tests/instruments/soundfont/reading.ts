import { createHash } from 'node:crypto';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import type { Instrument } from '../../../src/instruments/instrument.ts';
import { readSoundFont } from '../../../src/instruments/soundfont/read.ts';
import { namesOf } from '../../../src/terms/doubt.ts';
import { InputError } from '../../../src/terms/errors.ts';
import type { Finding } from '../../../src/terms/finding.ts';
import { bankBytes, type BankSpec } from './bank-bytes.ts';

export const digest = (parts: readonly Uint8Array[]): string => {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part);
  return hash.digest('hex');
};

/** Reads a bank from bytes, or from what it is made of. */
export const readBank = (
  bank: Uint8Array | BankSpec,
  preset: { bank: number; program: number } | null = null,
): Promise<Instrument> => {
  const bytes = bank instanceof Uint8Array ? bank : bankBytes(bank);
  return readSoundFont(new MemoryFiles({ 'bank.sf2': bytes }), 'bank.sf2', preset, digest);
};

/** The finding that stops the reading; fails when nothing does. */
export const refusal = async (reading: Promise<unknown>): Promise<Finding> => {
  try {
    await reading;
  } catch (error) {
    if (error instanceof InputError) return error.finding;
    throw error;
  }
  throw new Error('expected an InputError');
};

/** Starts as text: zone id, keys, velocities, preset zone, doubt. */
export const startLines = ({ program, zones, presetZones }: Instrument): readonly string[] =>
  program.starts.map(({ zone, keys, velocities, doubt }, i) =>
    [
      `zone ${String(zones[zone]!.id)}`,
      `keys ${keys.join('-')}`,
      `velocities ${velocities.join('-')}`,
      `through ${String(presetZones[i])}`,
      ...namesOf(doubt),
    ].join(' '),
  );
