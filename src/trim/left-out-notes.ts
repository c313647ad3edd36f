import { quoted } from '../draft/yaml-text.ts';

/** A template has no place for it. */
export const leftOutNotes = ({
  leftOut,
}: {
  readonly leftOut: readonly string[];
}): readonly string[] =>
  leftOut.length === 0
    ? []
    : [
        '# Planned without some cues that lie in one file with others: plan it with',
        ...leftOut.map((id) => `#   --without ${quoted(id)}`),
      ];
