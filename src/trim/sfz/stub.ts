import type { Offsets } from './offsets.ts';
import type { NewHeader } from './stub-list.ts';

/** What a silent region holds so that something of a lost one stays, and under which offsets. */
export interface Stub {
  readonly opcodes: NewHeader['opcodes'];
  /** Null: they make no difference. */
  readonly offsets: Offsets | null;
  /** The name of the switch. */
  readonly label?: string;
}
