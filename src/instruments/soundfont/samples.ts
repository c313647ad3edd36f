import { inputError } from '../../terms/errors.ts';
import { finding, type Finding } from '../../terms/finding.ts';
import type { Sample } from '../instrument.ts';
import type { BankFile } from './bank-file.ts';
import type { SampleRecord } from './hydra.ts';

/** Sample types; ROM is a flag beside the others (SoundFont 2.04, section 7.10). */
export const sampleType = { mono: 1, right: 2, left: 4, linked: 8, rom: 0x8000 } as const;

/** True for a sample that lies in the ROM of a device (section 7.10). */
export const isRom = (record: SampleRecord): boolean => (record.type & sampleType.rom) !== 0;

/** @throws {InputError} when a sample lies in ROM and the bank does not say in which (7.10) */
export const checkRom = ({ path, namesRom }: BankFile, records: readonly SampleRecord[]): void => {
  const inRom = records.find(isRom);
  if (inRom === undefined || namesRom) return;
  throw inputError('bank-chunk-missing', path, { chunk: 'irom' }, { byte: inRom.byte });
};

/**
 * The samples at `used` indices of the sample headers, in that order, and what is wrong with them.
 * `used` ascends.
 */
export const readSamples = (
  file: BankFile,
  records: readonly SampleRecord[],
  used: readonly number[],
): { readonly samples: readonly Sample[]; readonly findings: readonly Finding[] } => {
  const findings: Finding[] = [];
  const { path } = file;
  const points = pointsOf(file);
  const isPresent = (record: SampleRecord): boolean =>
    !isRom(record) && record.start < record.end && record.end <= points;
  const ignored = sm24Fault(file);
  if (ignored !== null) {
    findings.push(finding('warning', 'bank-sm24-ignored', path, { reason: ignored }));
  }
  const width = usesSm24(file) ? 3 : 2;
  const place = new Map(used.map((index, i) => [index, i]));
  let brokenLinks = 0;
  const samples = used.map((index): Sample => {
    const record = records[index]!;
    const { name, start, end, byte } = record;
    const label = name === '' ? String(index) : `${String(index)}:${name}`;
    const present = isPresent(record);
    if (isRom(record)) {
      findings.push(finding('note', 'bank-sample-rom', path, { sample: label }, { byte }));
    } else if (!present) {
      findings.push(finding('warning', 'bank-sample-broken', path, { sample: label }, { byte }));
    }
    let partner: number | null = null;
    if (isStereo(record)) {
      const other = records[record.link];
      if (other === undefined || !arePair(records, index, record.link)) brokenLinks++;
      else if (present && isPresent(other)) partner = place.get(record.link) ?? null;
    }
    const frames = Math.max(0, end - start);
    return { name: label, frames, channels: 1, width, rate: record.rate, present, partner };
  });
  if (brokenLinks > 0) {
    findings.push(finding('note', 'bank-links-broken', path, { links: brokenLinks }));
  }
  return { samples, findings };
};

/** Sample points in the file. */
export const pointsOf = ({ smpl }: BankFile): number => Math.floor((smpl?.length ?? 0) / 2);

const sideOf = (record: SampleRecord): number => record.type & ~sampleType.rom;

const isStereo = (record: SampleRecord): boolean =>
  sideOf(record) === sampleType.left || sideOf(record) === sampleType.right;

/** Left and right that name each other (section 7.10). Many banks leave all links at 0. */
export const arePair = (records: readonly SampleRecord[], a: number, b: number): boolean =>
  records[a]!.link === b &&
  records[b]!.link === a &&
  sideOf(records[a]!) + sideOf(records[b]!) === sampleType.left + sampleType.right;

/** Whether the low bytes of 24-bit sound are there and count. */
export const usesSm24 = (file: BankFile): boolean => file.sm24 !== null && sm24Fault(file) === null;

/**
 * Why the low bytes of 24-bit sound do not count; null when they do, or when there are none
 * (SoundFont 2.04, section 6.2): they count from version 2.04 on, and with one byte for each point of
 * `smpl`, rounded up to an even number.
 */
const sm24Fault = (file: BankFile): string | null => {
  const { version, smpl, sm24 } = file;
  if (sm24 === null) return null;
  const points = pointsOf(file);
  if (version.minor < 4) return 'version';
  if (smpl === null) return 'no-smpl';
  return sm24.length === points + (points % 2) ? null : 'size';
};
