import type { Finding } from '../terms/finding.ts';
import type { OutputFile } from './output-file.ts';

/** One definition made smaller, as data: nothing of it is written yet. */
export interface Trimmed {
  /** All that it takes, the definition itself first; paths as the source's own path is seen. */
  readonly files: readonly OutputFile[];
  /** By the id of a zone that stays (SoundFont: `ibag`; SFZ: region), its id in what is written. */
  readonly zones: ReadonlyMap<number, number>;
  /** Ids, in what is written, of zones that only hold a place: no note reaches them. */
  readonly places: readonly number[];
  /** Bytes of the files that the source takes: the definition, what it includes, its samples. */
  readonly bytesBefore: number;
  readonly findings: readonly Finding[];
}
