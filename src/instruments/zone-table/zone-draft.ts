import type { ControllerRange } from '../../notation/controllers.ts';
import type { Range } from '../../terms/range.ts';
import type { RowDraft } from './row-draft.ts';

/** One zone of a row. */
export interface ZoneDraft {
  readonly keys: Range;
  readonly velocities: Range;
  /** Controllers that must be in their ranges together; none: it sounds wherever they are. */
  readonly controllers: readonly ControllerRange[];
  readonly take: number | null;
  readonly microphone: string | null;
}

/**
 * The zones of a row: each combination of its lists, keys slowest, then velocities, controllers,
 * takes and microphones.
 */
export const expandRow = (row: RowDraft): readonly ZoneDraft[] =>
  row.keys.flatMap((keys) =>
    row.velocities.flatMap((velocities) =>
      row.controllers.flatMap((controllers) =>
        row.takes.flatMap((take) =>
          row.microphones.map((microphone) => ({
            keys,
            velocities,
            controllers,
            take,
            microphone,
          })),
        ),
      ),
    ),
  );
