import { fileName } from '../file-name.ts';
import type { Files } from '../../terms/files.ts';
import type { Instrument, Zone } from '../instrument.ts';
import { gatherArticulations } from './program/articulations.ts';
import { compileSfz } from './program/compile.ts';
import { namedRegions } from './program/named-region.ts';
import { roundOf } from './program/sequence.ts';
import { readDocument } from './text/read-document.ts';
import { structureOf } from './structure/regions.ts';
import { structureRemarks } from './structure/structure-remarks.ts';
import { loadSamples } from './samples/sample-files.ts';

/** sha256 in hex of the parts in their order. */
type Digest = (parts: readonly Uint8Array[]) => string;

/**
 * Reads an SFZ instrument: the text with all it includes, and the headers of its samples.
 *
 * @param digest told the text of every file and what is known of every sample, never their sound
 * @throws {InputError} when the text can't be read or trusted
 */
export const readSfz = async (files: Files, path: string, digest: Digest): Promise<Instrument> => {
  const document = await readDocument(files, path);
  const structure = structureOf(document);
  const { samples, uses, findings } = await loadSamples(files, path, structure);
  const regions = namedRegions(structure);
  const { all, ofRegion } = gatherArticulations(regions);
  const text = new TextEncoder();
  return {
    id: fileName(path),
    source: path,
    sha256: digest([
      ...document.files.map((file) => text.encode(`${String(file.text.length)}\n${file.text}`)),
      text.encode(JSON.stringify(samples)),
    ]),
    playedAs: 'single',
    zones: regions.map(({ region, opcodes }, i): Zone => {
      const { sample } = uses[i]!;
      const turn = roundOf(opcodes);
      return {
        id: region.number,
        samples: sample < 0 ? [] : [sample],
        group: 0,
        key: null,
        microphone: null,
        ...(turn === null ? {} : { turn }),
      };
    }),
    samples,
    articulations: all,
    program: compileSfz(regions, structure, uses, ofRegion),
    presetZones: [],
    findings: [
      ...document.findings,
      ...structure.findings,
      ...structureRemarks(path, document, structure),
      ...findings,
    ],
  };
};
