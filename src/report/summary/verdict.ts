import type { Overview } from '../../overview/overview.ts';
import { bullets } from '../bullets.ts';
import { shownName } from '../cell.ts';
import type { Look } from '../look.ts';
import { againstProof } from '../said/against-proof.ts';
import { paragraph } from '../paragraph.ts';
import { basisOf } from '../said/basis.ts';
import { answerOf, memorySaid } from '../said/verdict.ts';
import { saidText } from './said-text.ts';

/** As the user called it, on top. */
export const titleLines = ({ title }: Overview, look: Look): readonly string[] =>
  title === null
    ? []
    : paragraph([{ text: shownName(title, look), paint: look.colors.bold }], look.width);

/** The answer, what is saved, and what the answer rests on. */
export const verdictLines = (overview: Overview, look: Look): readonly string[] => {
  const { bold, green, red, yellow } = look.colors;
  const { word, means } = answerOf(overview);
  const color = { Proved: green, 'Not proved': yellow, Missing: red }[word];
  return [
    [{ text: `${word}:`, paint: (text: string) => bold(color(text)) }, saidText(means, look)],
    [saidText(memorySaid(overview), look)],
    ...basisOf(overview).map(([title, is]) => [`${title}: ${saidText(is, look)}.`]),
  ].flatMap((line) => paragraph(line, look.width));
};

/** What stands against a proof, each once. */
export const againstLines = (overview: Overview, look: Look): readonly string[] =>
  bullets(
    'What stands against a proof',
    againstProof(overview).map((message) => [message]),
    look,
  );
