/** error: the result can't be trusted or was not made; warning: read before relying; note: good to know. */
export type Severity = 'error' | 'warning' | 'note';

/** Where in a file. Tracks count from 0, bars, beats, lines and columns from 1, bytes from 0. */
export interface Place {
  readonly track?: number;
  readonly tick?: number;
  readonly bar?: number;
  readonly beat?: number;
  readonly byte?: number;
  readonly line?: number;
  readonly column?: number;
}

/**
 * Every finding there is and what its message needs. The wording lives in `report/messages`; a
 * finding never holds a sentence.
 */
export interface FindingArgs {
  // Standard MIDI Files
  'midi-empty': Record<string, never>;
  'midi-not-a-midi-file': { readonly begins: string };
  'midi-division-zero': Record<string, never>;
  'midi-format-unknown': { readonly format: number };
  'midi-header-length': { readonly length: number };
  'midi-header-repeated': Record<string, never>;
  'midi-no-tracks': Record<string, never>;
  'chunk-unknown': { readonly id: string; readonly length: number };
  'chunk-cut': { readonly id: string; readonly promised: number; readonly present: number };
  'tracks-beyond-header': { readonly promised: number; readonly present: number };
  'tracks-missing': { readonly promised: number; readonly present: number };
  'track-truncated': Record<string, never>;
  'track-data-byte': { readonly value: number };
  'track-status': { readonly status: number };
  'track-quantity': Record<string, never>;
  'track-no-end': Record<string, never>;
  'track-after-end': { readonly bytes: number };
  'running-status-after-meta': { readonly times: number };
  'meta-length': { readonly type: number; readonly length: number; readonly expected: number };
  'sysex-escape': { readonly times: number };
  'tempo-zero': Record<string, never>;
  'meter-odd': { readonly beats: number; readonly power: number };
  'port-odd': { readonly port: number };
  'midi-header-cut': { readonly length: number };
  // Cues
  'cue-damaged': { readonly tracks: number };
  'cue-several-files': { readonly cue: string; readonly files: number };
  'cue-versions': { readonly cue: string; readonly versions: readonly string[] };
  'cues-none': { readonly where: string };
  'cue-without-notes': Record<string, never>;
  'path-missing': Record<string, never>;
  'path-not-a-file': Record<string, never>;
  'path-unreadable': { readonly reason: string };
  'path-changed-while-read': Record<string, never>;
  'output-unwritable': { readonly reason: string };
  'output-exists': Record<string, never>;
  // SoundFont banks
  'bank-not-a-soundfont': { readonly begins: string };
  'bank-truncated': { readonly chunk: string; readonly promised: number; readonly present: number };
  'bank-chunk-missing': { readonly chunk: string };
  'bank-chunk-unknown': { readonly chunk: string };
  'bank-record-size': { readonly chunk: string; readonly bytes: number; readonly record: number };
  'bank-index': { readonly chunk: string; readonly record: number; readonly value: number };
  'bank-too-large': { readonly chunk: string; readonly count: number };
  'bank-version': { readonly major: number; readonly minor: number };
  'bank-no-presets': Record<string, never>;
  'bank-preset-repeated': { readonly preset: string };
  'bank-preset-empty': { readonly preset: string };
  'bank-sample-broken': { readonly sample: string };
  'bank-sample-rom': { readonly sample: string };
  'bank-sm24-ignored': { readonly reason: string };
  'bank-links-broken': { readonly links: number };
  'bank-chunk-order': { readonly chunk: string };
  'bank-no-instruments': Record<string, never>;
  'bank-bytes-after-end': { readonly bytes: number };
  'preset-missing': { readonly preset: string; readonly near: readonly string[] };
  'programs-ignored': { readonly events: number };
  // Plans
  'instrument-unused': { readonly instrument: string };
  'nothing-saved': Record<string, never>;
}

export type FindingCode = keyof FindingArgs;

/** A message as data: what was found and where. */
export type Finding = {
  readonly [Code in FindingCode]: {
    readonly code: Code;
    readonly severity: Severity;
    /** The file it is about, as the user named it; null when it is about the whole run. */
    readonly file: string | null;
    readonly at: Place | null;
    readonly args: FindingArgs[Code];
  };
}[FindingCode];

/** Makes a finding; `Code` ties `args` to `code`. */
export const finding = <Code extends FindingCode>(
  severity: Severity,
  code: Code,
  file: string | null,
  args: FindingArgs[Code],
  at: Place | null = null,
): Finding => ({ code, severity, file, at, args }) as Finding;
