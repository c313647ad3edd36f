import type { DiffFindings } from '../../terms/findings/diffs.ts';
import { printable } from '../../terms/printable.ts';
import { plural } from '../format.ts';
import { words, type Wording, type Words } from './words.ts';

const listed = (names: readonly string[]): string => {
  const shown = names.slice(0, 4).map(printable).join(', ');
  return names.length > 4 ? `${shown} and ${plural(names.length - 4, 'more', 'more')}` : shown;
};

/** What is the matter and what to do about it, by the reason. */
const becauseOf = (reason: string, some: string): readonly [because: string, hint: string] => {
  switch (reason) {
    case 'no-template':
      return [
        'there is no template here to find its definition by',
        'Run it in the folder of keepset.yaml, or name the template: --template FILE',
      ];
    case 'template':
      return [
        'the template can not be read, or the instrument that was planned is not named well',
        'Name the template (--template FILE), or the instrument as it was planned: --instrument FILE, for a table with --middle-c.',
      ];
    case 'unlisted':
      return [
        'it is not in the template here',
        'Name the template it was planned with: --template FILE',
      ];
    case 'unreadable':
      return [
        'its definition can not be read',
        `Put the definition of ${some} where the template says.`,
      ];
    case 'changed':
      return [
        'its definition is not the one that both keep files were made with',
        'Plan again with this definition, or put that one back.',
      ];
    default:
      return [
        'its player or its readings are not those that both keep files were made with',
        'Plan again with this template, then compare the new keep files.',
      ];
  }
};

const withoutBytes = ({ reason, instruments }: DiffFindings['diff-without-bytes']): Words => {
  const some = listed(instruments);
  const [because, hint] = becauseOf(reason, some);
  return words(`How many bytes to load and unload is not known for ${some}: ${because}.`, hint);
};

/** Holding two keep files against each other. */
export const diffWording: Wording<keyof DiffFindings> = {
  'diff-templates-differ': ({ from, to }) =>
    words(
      `The two keep files, ${printable(from)} and ${printable(to)}, were made with different templates.`,
      'Nothing to do if the template was changed on purpose: what moved is unloaded there and loaded here.',
    ),
  'diff-without-bytes': withoutBytes,
};
