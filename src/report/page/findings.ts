import type { Overview } from '../../overview/overview.ts';
import type { Finding, Severity } from '../../terms/finding.ts';
import { whereOf } from '../error-text.ts';
import { messageOf } from '../messages.ts';
import { markup, type Html } from './html.ts';

const rank: Readonly<Record<Severity, number>> = { error: 0, warning: 1, note: 2 };

const item = (found: Finding): Html => {
  const { message, hint } = messageOf(found);
  const where = whereOf(found);
  return markup`<li><span class=o>${found.severity}</span> <code>${found.code}</code>${where !== null && markup` <bdi class=n>${where}</bdi>`}<br />${message}${hint !== '' && markup` <i>${hint}</i>`}`;
};

/** What was found on the way, the gravest first. */
export const findingsSection = ({ findings }: Overview): Html => {
  const sorted = [...findings].sort((a, b) => rank[a.severity] - rank[b.severity]);
  return markup`<section id=findings aria-labelledby="findings-h"><h2 id=findings-h>Findings</h2>${
    sorted.length === 0
      ? markup`<p>Nothing to report.</p>`
      : markup`<ul class=p>${sorted.map(item)}</ul>`
  }</section>`;
};
