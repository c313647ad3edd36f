/** A computer with a memory budget. */
export interface Machine {
  readonly id: string;
  /** Bytes that may be filled: its memory less the reserve; null where none is given. */
  readonly budget: number | null;
}

/** Where no template says otherwise. */
export const defaultMachine: Machine = { id: 'default', budget: null };
