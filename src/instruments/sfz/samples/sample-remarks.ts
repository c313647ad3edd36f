import type { HeaderRemark } from '../../../samples/sample-header.ts';
import { finding, type Finding } from '../../../terms/finding.ts';
import type { FoundFile } from './find-samples.ts';
import { folderOf, plainPath } from '../text/paths.ts';
import { askedPath, keptPath, type AskedFile } from './region-samples.ts';
import { isSampleFault, type SampleResult } from './sample-reader.ts';

/** As many names as a person needs to see what they have in common. */
const mostNames = 4;

/** The longest path that a message repeats, in characters. */
const longest = 60;

/** The end of a path tells most. */
const shownPath = (path: string): string => {
  const characters = [...path.slice(-4 * longest)];
  return path.length <= longest ? path : `…${characters.slice(1 - longest).join('')}`;
};

/** Remarks of headers that make the size of a sample uncertain; the others change no figure. */
const telling: ReadonlySet<HeaderRemark['code']> = new Set([
  'sound-cut',
  'size-unset',
  'frame-size',
  'frame-count',
  'end-missing',
]);

interface Gathered {
  samples: number;
  readonly first: string[];
  readonly say: (samples: number, first: readonly string[]) => Finding;
}

/** Gathers what is odd about samples: one finding for all that are odd in the same way. */
export class SampleRemarks {
  readonly #root: string;
  readonly #gathered = new Map<string, Gathered>();
  #missingRegions = 0;

  /** @param root the path of the instrument */
  constructor(root: string) {
    this.#root = root;
  }

  /** In the order that they were first met. */
  findings(): readonly Finding[] {
    return [...this.#gathered.values()].map(({ samples, first, say }) => say(samples, first));
  }

  /** A sample that is nowhere, once. */
  missing(asked: AskedFile): void {
    this.#count('missing', askedPath(asked), (samples, first) =>
      finding('warning', 'samples-missing', this.#root, {
        samples,
        regions: this.#missingRegions,
        first,
      }),
    );
  }

  /** Each region whose sample is nowhere. */
  missingRegion(): void {
    this.#missingRegions += 1;
  }

  /** A sample that was found, once. */
  found(asked: AskedFile, { path, by }: FoundFile): void {
    const name = askedPath(asked);
    if (by === 'near') {
      const args = { path: shownPath(name), found: shownPath(this.#within(path)) };
      this.#count('near', name, (samples) =>
        finding('note', 'sample-case', this.#root, { samples, ...args }),
      );
    } else if (by === 'kept') {
      const args = { path: shownPath(name), found: shownPath(keptPath(asked)) };
      this.#count('kept', name, (samples) =>
        finding('note', 'sample-default-path', this.#root, { samples, ...args }),
      );
    } else if (asked.outside) {
      this.#count('outside', name, (samples, first) =>
        finding('note', 'sample-outside', this.#root, { samples, first }),
      );
    }
  }

  /** What a sample's header came to, once. */
  read(name: string, result: SampleResult): void {
    if (isSampleFault(result)) {
      this.#count(`fault ${result.fault}`, name, (samples, first) =>
        finding('warning', 'sample-header-unreadable', this.#root, { ...result, samples, first }),
      );
      return;
    }
    const { width, widthAssumed, remarks } = result;
    if (widthAssumed) {
      this.#count('width', name, (samples, first) =>
        finding('note', 'sample-width-assumed', this.#root, { samples, width, first }),
      );
    }
    for (const remark of new Set(remarks.map(({ code }) => code))) {
      if (!telling.has(remark)) continue;
      const severity = remark === 'sound-cut' ? 'warning' : 'note';
      this.#count(`odd ${remark}`, name, (samples, first) =>
        finding(severity, 'sample-header-odd', this.#root, { remark, samples, first }),
      );
    }
  }

  /** @param say makes the finding; that of the first sample is used */
  #count(kind: string, name: string, say: Gathered['say']): void {
    let gathered = this.#gathered.get(kind);
    if (gathered === undefined)
      this.#gathered.set(kind, (gathered = { samples: 0, first: [], say }));
    gathered.samples += 1;
    if (gathered.first.length < mostNames) gathered.first.push(shownPath(name));
  }

  /** A path on the disk as it would be written in the instrument. */
  #within(path: string): string {
    const folder = plainPath(folderOf(this.#root));
    const start = folder === '' || folder.endsWith('/') ? folder : `${folder}/`;
    return path.startsWith(start) ? path.slice(start.length) : path;
  }
}
