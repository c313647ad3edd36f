import { structureOf } from '../../instruments/sfz/structure/regions.ts';
import { readDocument } from '../../instruments/sfz/text/read-document.ts';
import type { Files } from '../../terms/files.ts';
import type { OutputFile } from '../output-file.ts';
import type { TrimSet } from '../trim-set.ts';
import type { Trimmed } from '../trimmed.ts';
import { cutsOf } from './cuts.ts';
import { fatesOf } from './fates.ts';
import { idleSilences } from './idle-silences.ts';
import { copiesOfIncludes } from './include-copies.ts';
import { playedFiles } from './played-files.ts';
import { checkRewritten } from './self-check.ts';
import { refuseAbsolute } from './refuse-absolute.ts';
import { silencesOf } from './silences.ts';
import { withStubs } from './stub-edit.ts';
import { stubsFor } from './stubs.ts';
import { tidyEdits } from './tidy-edits.ts';
import { readTexts, writtenBytes } from './text-files.ts';

/**
 * An SFZ instrument without the regions that nothing reaches: they are taken out of its texts, all else
 * stays as it is written, byte for byte. Regions that only stop others keep their place without a
 * sample; keys that switch go on switching. The result is read again and compared before it is given.
 *
 * @param path of the root file
 * @param keep by the regions' numbers in reading order
 * @returns the root file first, then what it includes, then samples; nothing is written
 * @throws {InputError} what reading throws; `path-changed-while-read`; `trim-path`
 */
export const trimSfz = async (files: Files, path: string, keep: TrimSet): Promise<Trimmed> => {
  const document = await readDocument(files, path);
  const structure = structureOf(document);
  const texts = await readTexts(files, document);
  const played = await playedFiles(files, path, structure, keep);
  const fates = fatesOf(document, structure, played.regions, keep);
  refuseAbsolute(document, played, fates, keep);
  const silences = silencesOf(document, fates);
  const tidied = tidyEdits(document, cutsOf(document, fates), silences);
  const stubs = stubsFor(document, structure, fates);
  const edits = withStubs(document, fates, tidied, stubs);
  const written = await copiesOfIncludes(files, document, edits, played.asked);
  const outputs = written.map(({ file, path, edits }) => ({
    path,
    bytes: writtenBytes(document.files[file]!, texts[file]!, edits),
  }));
  const made = await checkRewritten(document, fates, stubs.headers, outputs);

  const silent = fates.kept.flatMap((old, now) => (keep.loaded.has(old) ? [] : [now]));
  const names = new Set(outputs.map((one) => one.path));
  const copied = played.loaded.filter((one) => !names.has(one.path));
  return {
    files: [
      ...outputs.map(({ path, bytes }): OutputFile => ({
        path,
        pieces: [{ kind: 'bytes', bytes }],
      })),
      ...copied.map(({ path, size }): OutputFile => ({
        path,
        pieces: [{ kind: 'copy', path, start: 0, length: size, size }],
      })),
    ],
    zones: new Map(fates.kept.map((old, now) => [old, now])),
    places: [
      ...idleSilences(made, silent),
      ...Array.from({ length: stubs.regions }, (_, i) => fates.kept.length + i),
    ],
    bytesBefore: texts.reduce((sum, bytes) => sum + bytes.length, 0) + played.bytes,
    findings: [],
  };
};
