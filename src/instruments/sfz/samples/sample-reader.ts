import { readSampleHeader, sampleHeaderOf } from '../../../samples/read-header.ts';
import {
  isHeaderFault,
  type HeaderFault,
  type HeaderResult,
  type SampleHeader,
} from '../../../samples/sample-header.ts';
import { InputError } from '../../../terms/errors.ts';
import type { Files } from '../../../terms/files.ts';

/** Why a sample that is there could not be read. */
export interface SampleFault {
  /** Of its header, or a file that could not even be looked into. */
  readonly fault:
    HeaderFault['code'] | 'path-not-a-file' | 'path-unreadable' | 'path-changed-while-read';
  /** What it is about, as the header or the system calls it; may be empty. */
  readonly detail: string;
}

export type SampleResult = SampleHeader | SampleFault;

export const isSampleFault = (result: SampleResult): result is SampleFault => 'fault' in result;

/**
 * What a sample's file says of itself.
 *
 * @param outside true for a path out of the instrument's folder: it may lead to a device, which is not
 *   even opened
 * @returns null when nothing is at `path`
 */
export const readSample = async (
  files: Files,
  path: string,
  outside: boolean,
): Promise<SampleResult | null> => {
  try {
    const kind = outside ? (await files.info(path))?.kind : 'file';
    if (kind !== 'file')
      return kind === undefined ? null : { fault: 'path-not-a-file', detail: '' };
    const header = await files.open(path, ({ size, read }) => readSampleHeader(size, read));
    return header === null ? null : told(header);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return diskFault(error);
  }
};

/** The same for a sample that is embedded in the instrument. */
export const readEmbedded = async (sound: Uint8Array): Promise<SampleResult> =>
  told(await sampleHeaderOf(sound));

const told = (result: HeaderResult): SampleResult =>
  isHeaderFault(result) ? { fault: result.code, detail: detailOf(result) } : result;

const detailOf = (fault: HeaderFault): string => {
  switch (fault.code) {
    case 'not-audio':
      return fault.begins;
    case 'unsupported':
      return fault.what;
    case 'cut':
      return fault.part;
    case 'chunk-missing':
      return fault.chunk;
    case 'impossible':
      return `${fault.field} ${String(fault.value)}`;
    case 'empty':
    case 'no-sound':
    case 'length-unknown':
    case 'scattered':
      return '';
  }
};

const diskFault = ({ finding: { code, args } }: InputError): SampleFault => {
  if (code === 'path-unreadable') return { fault: code, detail: args.reason };
  if (code === 'path-not-a-file') return { fault: code, detail: '' };
  // It was there a moment ago.
  return { fault: 'path-changed-while-read', detail: '' };
};
