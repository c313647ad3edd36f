/**
 * Samples of an instrument whose sound lies in files of its own. Each is said once for all samples it
 * holds for: `samples` counts them, `first` names the first few, shortened.
 */
export interface SampleFindings {
  /** Files that are not there; `regions` that name them. */
  'samples-missing': {
    readonly samples: number;
    readonly regions: number;
    readonly first: readonly string[];
  };
  /** There under a name that differs in capitals or the form of its accents; the first of them. */
  'sample-case': { readonly samples: number; readonly path: string; readonly found: string };
  /** Outside the folder of the instrument. */
  'sample-outside': { readonly samples: number; readonly first: readonly string[] };
  /** There only for readers that keep the path of an earlier header; the first of them. */
  'sample-default-path': {
    readonly samples: number;
    readonly path: string;
    readonly found: string;
  };
  /** `fault`: a code of its own, `detail` what it is about in the first of them; may be empty. */
  'sample-header-unreadable': {
    readonly fault: string;
    readonly detail: string;
    readonly samples: number;
    readonly first: readonly string[];
  };
  /** Read, but `remark` makes their length or width uncertain: a code of its own. */
  'sample-header-odd': {
    readonly remark: string;
    readonly samples: number;
    readonly first: readonly string[];
  };
  /** Compressed, so that a width had to be assumed, in bytes. */
  'sample-width-assumed': {
    readonly samples: number;
    readonly width: number;
    readonly first: readonly string[];
  };
  /** The paths of all samples together, in characters. */
  'samples-paths-too-long': { readonly limit: number };
}
