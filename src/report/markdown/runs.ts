import { escapeStart, escapeText } from './escape.ts';
import { paintEnd, paintMarks } from './marks.ts';

/** How a run of text is painted; of several, the strongest. */
export type Paint = keyof typeof paintMarks | 'none';

/** Text in one paint. */
export interface Run {
  readonly text: string;
  readonly paint: Paint;
}

const strength = ['none', 'quiet', 'good', 'stress', 'bold'] as const;
const names = new Map<string, Paint>(
  Object.entries(paintMarks).map(([name, mark]) => [mark, name as Paint]),
);

const controls = /([\x00-\x1f])/;

/** Parts a marked line into its runs. Controls that are no paint are left out. */
export const readRuns = (line: string): readonly Run[] => {
  const open: Paint[] = [];
  const runs: Run[] = [];
  for (const piece of line.split(controls)) {
    const began = names.get(piece);
    if (began !== undefined) open.push(began);
    else if (piece === paintEnd) open.pop();
    else if (piece !== '' && !controls.test(piece)) {
      const paint = open.reduce<Paint>(
        (best, one) => (strength.indexOf(one) > strength.indexOf(best) ? one : best),
        'none',
      );
      runs.push({ text: piece, paint });
    }
  }
  return runs;
};

/** The text alone. */
export const bareText = (runs: readonly Run[]): string => runs.map(({ text }) => text).join('');

/** The same on one line, without spaces that Markdown would not show. */
export const lineOf = (runs: readonly Run[]): string =>
  bareText(runs).trim().replace(/ {2,}/g, ' ');

/** What is set in bold, and what is not. */
interface Part {
  readonly text: string;
  readonly strong: boolean;
}

/** Runs side by side that look alike are one part; a space between two strong ones is strong. */
const partsOf = (runs: readonly Run[], strong: readonly Paint[]): readonly Part[] => {
  const parts: Part[] = [];
  runs.forEach(({ text, paint }, i) => {
    const last = parts.at(-1);
    const isGap = text.trim() === '' && strong.includes(runs[i + 1]?.paint ?? 'none');
    const own = isGap && last !== undefined ? last.strong : strong.includes(paint);
    if (last?.strong === own) parts[parts.length - 1] = { ...last, text: last.text + text };
    else if (last !== undefined || text.trim() !== '') parts.push({ text, strong: own });
  });
  return parts;
};

/** Stress begins and ends at a word, or it is none (CommonMark, section 6.2). */
const stressed = (text: string): string => {
  const core = text.trim();
  if (core === '') return text;
  const at = text.indexOf(core);
  return `${text.slice(0, at)}**${escapeText(core)}**${text.slice(at + core.length)}`;
};

/**
 * Runs as Markdown on one line, those in one of the `strong` paints in bold.
 *
 * @param place at the start of a line more is escaped than inside one
 */
export const writeRuns = (
  runs: readonly Run[],
  strong: readonly Paint[],
  place: 'start' | 'inside',
): string =>
  partsOf(runs, strong)
    .map((part, i) =>
      part.strong
        ? stressed(part.text)
        : i === 0 && place === 'start'
          ? escapeStart(part.text.trimStart())
          : escapeText(part.text),
    )
    .join('')
    .trim()
    .replace(/ {2,}/g, ' ');
