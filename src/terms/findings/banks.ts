/** What reading a SoundFont bank may find. */
export interface BankFindings {
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
}
