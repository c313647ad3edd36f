/** What reading a Standard MIDI File may find. */
export interface MidiFindings {
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
}
