import type { Look } from '../look.ts';
import { nameInText } from '../name-list.ts';
import type { Said } from '../said/said.ts';
import { signedBytes } from '../worklist-words.ts';

/** A sentence as text. */
export const saidText = (said: Said, look: Look): string =>
  said
    .map((piece) => {
      if (typeof piece === 'string') return piece;
      if ('name' in piece) return nameInText(piece.name, look);
      if ('step' in piece) return String(piece.step);
      return 'command' in piece ? piece.command : signedBytes(piece.bytes);
    })
    .join('');
