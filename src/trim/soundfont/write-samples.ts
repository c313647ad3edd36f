import { littleEndian } from '../../instruments/soundfont/binary.ts';
import type { SampleRecord } from '../../instruments/soundfont/hydra.ts';
import type { List } from '../../instruments/soundfont/lists.ts';
import { arePair, isRom, sampleType } from '../../instruments/soundfont/samples.ts';
import { concatenated } from './riff-pieces.ts';
import { copyOfRecord, terminalRecord } from './write-headers.ts';

/** Where a sample header has what changes (SoundFont 2.04, section 7.10). */
const at = { start: 20, end: 24, loopStart: 28, loopEnd: 32, link: 42, type: 44 } as const;

/**
 * The headers of the samples that stay, and the terminal record. All addresses of a sample move by as
 * much as its start does, so that it is as long, and its loop lies as before. An end behind the sound
 * stays as far behind it: a synthesiser that refuses such a sample must refuse it still. Samples in
 * ROM keep their addresses.
 *
 * @param samples indices of the headers that stay, ascending
 * @param shiftAt how far a point of the sound moves to the front
 */
export const writeSamples = (
  list: List,
  records: readonly SampleRecord[],
  samples: readonly number[],
  shiftAt: (point: number) => number,
): Uint8Array => {
  const renumber = new Map(samples.map((sample, i) => [sample, i]));
  const headers = samples.map((sample) => {
    const bytes = copyOfRecord(list, sample);
    const view = littleEndian(bytes);
    const record = records[sample]!;
    if (!isRom(record)) moveAddresses(view, record, shiftAt(record.start));
    relink(view, records, sample, renumber);
    return bytes;
  });
  return concatenated([...headers, terminalRecord('shdr')]);
};

const moveAddresses = (view: DataView, record: SampleRecord, shift: number): void => {
  const moved = (point: number): number => Math.max(point - shift, 0);
  view.setUint32(at.start, moved(record.start), true);
  view.setUint32(at.end, moved(record.end), true);
  const { loopStart, loopEnd } = record;
  let [first, end] = [moved(loopStart), moved(loopEnd)];
  // Both lay far before the sample. A loop without length means none, so it must not become one.
  if (first === end && loopStart < loopEnd) end++;
  if (first === end && loopStart > loopEnd) first++;
  view.setUint32(at.loopStart, first, true);
  view.setUint32(at.loopEnd, end, true);
};

/**
 * A link follows the header it names, whether that one names this one in turn or not. Where the other
 * half of a pair goes, a mono sample is left. What was no pair keeps its type: many banks have sides and
 * no links, and a synthesiser goes by the side (TiMidity++ 2.14.0, measured). A link that names no
 * header stays as it is.
 */
const relink = (
  view: DataView,
  records: readonly SampleRecord[],
  sample: number,
  renumber: ReadonlyMap<number, number>,
): void => {
  const { link, type } = records[sample]!;
  if (link >= records.length) return;
  const renumbered = renumber.get(link);
  view.setUint16(at.link, renumbered ?? 0, true);
  if (renumbered !== undefined || !arePair(records, sample, link)) return;
  view.setUint16(at.type, (type & sampleType.rom) | sampleType.mono, true);
};
