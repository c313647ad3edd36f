import type { Files } from '../../../terms/files.ts';
import type { Finding } from '../../../terms/finding.ts';
import type { Sample } from '../../instrument.ts';
import { findSamples } from './find-samples.ts';
import { regionSamples } from './region-samples.ts';
import type { SfzStructure } from '../structure/regions.ts';
import { SampleList } from './sample-list.ts';
import { readEmbedded, type SampleResult } from './sample-reader.ts';
import type { SampleUse } from './sample-use.ts';

export interface SfzSamples {
  /** In the order of the first regions that use them; one file by two spellings is one sample. */
  readonly samples: readonly Sample[];
  /** One per region. */
  readonly uses: readonly SampleUse[];
  readonly findings: readonly Finding[];
}

/**
 * Finds the samples of an instrument and reads their headers. Paths start in the folder of the root file,
 * from included files too (the open SFZ documentation, "#include"). A file that is not there, or can't be
 * read, is a sample that is not present.
 *
 * @param root the path of the .sfz file
 * @throws {InputError} `samples-paths-too-long`
 */
export const loadSamples = async (
  files: Files,
  root: string,
  structure: SfzStructure,
): Promise<SfzSamples> => {
  const played = regionSamples(root, structure);
  const asked = new Set(played.flatMap((one) => (one.kind === 'file' ? [one.file] : [])));
  const found = await findSamples(files, [...asked]);
  const embedded = new Map<string, SampleResult>();
  for (const one of played) {
    if (one.kind !== 'embedded' || embedded.has(one.name)) continue;
    embedded.set(one.name, await readEmbedded(structure.embedded.get(one.name)!));
  }
  const list = new SampleList(root, found, embedded);
  const uses = played.map((one) => list.use(one));
  return { samples: list.samples, uses, findings: list.findings() };
};
