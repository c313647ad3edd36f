import type { KeyPath } from './yaml.ts';

/** Reading `keepset.yaml` and `tracks.csv`. Places are line and column. */
export interface TemplateFindings {
  'template-too-large': { readonly bytes: number; readonly limit: number };
  /** A key that may only stand together with another, or with a value of another (`needs`). */
  'template-key-alone': {
    readonly path: KeyPath;
    readonly needs: string;
    readonly example: string;
  };
  /** An id that is `empty`, has `blanks` at its ends, or holds what can't be shown (`unprintable`). */
  'template-id': { readonly kind: string; readonly id: string; readonly reason: string };
  /** `kind`: `machine`, `player` or `instrument`. */
  'template-undeclared': {
    readonly kind: string;
    readonly id: string;
    readonly near: string | null;
    /** The first few that are declared. */
    readonly declared: readonly string[];
  };
  /** An instrument that does not say which of several machines or players it is for. */
  'template-unassigned': {
    readonly kind: string;
    readonly instrument: string;
    readonly declared: readonly string[];
  };
  /** In bytes. */
  'template-reserve': {
    readonly machine: string;
    readonly memory: number;
    readonly reserve: number;
  };
  /** An instrument with no definition, or with several. */
  'template-source': {
    readonly instrument: string;
    readonly given: readonly string[];
    readonly example: string;
  };
  /** A microphone that the definition does not have; `known`: the first few that it has. */
  'template-microphone': {
    readonly instrument: string;
    readonly name: string;
    readonly near: string | null;
    readonly known: readonly string[];
  };
  'template-settle-damage': Record<string, never>;
  /** The table of tracks can't be read: `reason` is the code of another finding. */
  'template-tracks': { readonly path: string; readonly reason: string };
  /** A key that changes nothing here; `reason`: why, a code of its own. */
  'template-key-idle': { readonly path: KeyPath; readonly reason: string };
  /** A machine or a player (`kind`) that no instrument is for. */
  'template-unused': { readonly kind: string; readonly id: string };
}
