import type { Overview } from '../../overview/overview.ts';
import { againstProof } from '../said/against-proof.ts';
import { basisOf } from '../said/basis.ts';
import { caution } from '../said/caution.ts';
import { answerOf, memorySaid } from '../said/verdict.ts';
import { amount } from './figures.ts';
import { markup, type Html } from './html.ts';
import { missingTable } from './missing.ts';
import { named } from './names.ts';
import { held } from './numbers.ts';
import { saidHtml } from './said-html.ts';

/** The answer, a sentence that needs no colour. */
const answer = (overview: Overview): Html => {
  const { word, means } = answerOf(overview);
  // Of what is missing it says more than of what is saved.
  const memory = word !== 'Missing' && markup` ${saidHtml(memorySaid(overview))}`;
  return markup`<b>${word}:</b> ${saidHtml(means)}${memory}`;
};

/** What stands against a proof, each once, in words. */
const against = (overview: Overview): Html | null => {
  if (overview.proof.open.length === 0) return null;
  return markup`<h2>What stands against a proof</h2><ul class=p>${againstProof(overview).map((message) => markup`<li>${held(message)}`)}</ul>`;
};

const basis = (overview: Overview): Html =>
  markup`<dl class=f>${basisOf(overview).map(([title, is]) => markup`<dt>${title}<dd>${saidHtml(is)}`)}</dl>`;

/** Machines that do not fit, whatever was proved. Judged on the high figure, which is the one needed. */
const tooSmall = ({ machines }: Overview): readonly Html[] =>
  machines.flatMap(({ id, budget, bytes, fits }) =>
    fits === false && budget !== null
      ? [
          markup` Machine ${named(id)} ${bytes.kept > budget ? 'does' : 'may'} not fit: ${bytes.kept > budget ? null : 'up to '}${amount(bytes.kept > budget ? bytes.kept : bytes.high)} needed, ${amount(budget)} there.`,
        ]
      : [],
  );

/** A bar of what stays of all there is; the sentence above says it in figures. */
const bar = ({ total: { bytes } }: Overview): Html => {
  const kept = bytes.full === 0 ? 0 : Math.round((bytes.kept / bytes.full) * 1000);
  return markup`<svg class=b viewBox="0 0 1000 10" preserveAspectRatio="none" aria-hidden=true><path class=a d="M0 5h1000" /><path class=k d="M0 5h${kept}" /></svg>`;
};

/** The verdict first, then what it rests on. */
export const verdictSection = (overview: Overview): Html =>
  markup`<section id=verdict aria-label="Verdict"><p class=v>${answer(overview)}${tooSmall(overview)}</p>${bar(overview)}${missingTable(overview)}${against(overview)}${basis(overview)}<p class=n>${caution}</p></section>`;
