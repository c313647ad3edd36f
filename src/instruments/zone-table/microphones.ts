import { fold } from '../../notation/fold.ts';
import type { ZoneDraft } from './zone-draft.ts';

/** The name of a zone's microphone as the table spells it first: `Close` and `close` are one. */
export const microphoneNames = (): ((zone: ZoneDraft) => string | null) => {
  const names = new Map<string, string>();
  return ({ microphone }) => {
    if (microphone === null) return null;
    const folded = fold(microphone);
    const name = names.get(folded) ?? microphone;
    names.set(folded, name);
    return name;
  };
};
