import type { SampleHeader } from '../../../samples/sample-header.ts';

/** What a region plays. */
export interface SampleUse {
  readonly kind: 'file' | 'embedded' | 'generator' | 'silence' | 'none';
  /** Index into the samples of the instrument; -1 for none, generator and silence. */
  readonly sample: number;
  /** null where there is no sample, or one that can't be read. */
  readonly header: SampleHeader | null;
}
