import type { Finding } from '../../../terms/finding.ts';
import type { Sample } from '../../instrument.ts';
import type { FoundFile } from './find-samples.ts';
import { askedPath, type AskedFile, type RegionSample } from './region-samples.ts';
import type { SampleUse } from './sample-use.ts';
import { isSampleFault, type SampleResult } from './sample-reader.ts';
import { SampleRemarks } from './sample-remarks.ts';

/** The samples of an instrument while its regions are gone through. */
export class SampleList {
  readonly samples: Sample[] = [];
  readonly #found: ReadonlyMap<AskedFile, FoundFile | null>;
  readonly #embedded: ReadonlyMap<string, SampleResult>;
  readonly #remarks: SampleRemarks;
  /** By what makes them one sample. */
  readonly #known = new Map<string, SampleUse>();
  readonly #names = new Set<string>();

  constructor(
    root: string,
    found: ReadonlyMap<AskedFile, FoundFile | null>,
    embedded: ReadonlyMap<string, SampleResult>,
  ) {
    this.#found = found;
    this.#embedded = embedded;
    this.#remarks = new SampleRemarks(root);
    for (const [asked, file] of found) if (file !== null) this.#remarks.found(asked, file);
  }

  findings(): readonly Finding[] {
    return this.#remarks.findings();
  }

  /** What a region plays. */
  use(played: RegionSample): SampleUse {
    switch (played.kind) {
      case 'file':
        return this.#useFile(played.file);
      case 'embedded': {
        const { kind, name } = played;
        return this.#once(`embedded ${name}`, kind, [name], this.#embedded.get(name)!);
      }
      case 'none':
      case 'silence':
      case 'generator':
        return { kind: played.kind, sample: -1, header: null };
    }
  }

  #useFile(asked: AskedFile): SampleUse {
    const file = this.#found.get(asked) ?? null;
    const names = [asked.value, askedPath(asked)] as const;
    if (file !== null) return this.#once(`file ${file.path}`, 'file', names, file.result);
    this.#remarks.missingRegion();
    const key = `missing ${asked.path}`;
    if (!this.#known.has(key)) this.#remarks.missing(asked);
    return this.#once(key, 'file', names, null);
  }

  /**
   * @param names the one in the instrument, and what tells it from another of that name; both may be
   *   taken all the same
   */
  #once(
    key: string,
    kind: SampleUse['kind'],
    [name, longer = name]: readonly [string, string?],
    result: SampleResult | null,
  ): SampleUse {
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    if (result !== null) this.#remarks.read(longer, result);
    const header = result === null || isSampleFault(result) ? null : result;
    const { frames, channels, width, rate } = header ?? unknown;
    const shown = this.#names.has(name) ? longer : name;
    this.#names.add(shown);
    const present = header !== null;
    const sample = { name: shown, frames, channels, width, rate, present, partner: null };
    const use = { kind, sample: this.samples.push(sample) - 1, header };
    this.#known.set(key, use);
    return use;
  }
}

/** What stands where a size should: it is never counted. */
const unknown = { frames: 0, channels: 1, width: 2, rate: 0 };
