import type { Overview } from '../../overview/overview.ts';
import type { Finding, Severity } from '../../terms/finding.ts';
import { whereOf } from '../error-text.ts';
import { messageOf } from '../messages.ts';
import { markup, joined, type Html } from './html.ts';
import { held } from './numbers.ts';

const rank: Readonly<Record<Severity, number>> = { error: 0, warning: 1, note: 2 };

/** Findings that say the same of several places. */
interface Told {
  readonly severity: Severity;
  readonly code: string;
  readonly message: string;
  readonly hint: string;
  readonly places: string[];
}

const toldOnce = (findings: readonly Finding[]): readonly Told[] => {
  const told = new Map<string, Told>();
  for (const found of findings) {
    const { severity, code } = found;
    const { message, hint } = messageOf(found);
    const key = JSON.stringify([severity, code, message, hint]);
    const one = told.get(key) ?? { severity, code, message, hint, places: [] };
    const where = whereOf(found);
    if (where !== null) one.places.push(where);
    told.set(key, one);
  }
  return [...told.values()];
};

const item = (found: Told): Html => {
  const { message, hint, places } = found;
  return markup`<li><span class=o>${found.severity}</span> <code>${found.code}</code>${
    places.length > 0 &&
    markup` <span class=n>${joined(
      places.map((place) => markup`<bdi>${place}</bdi>`),
      ', ',
    )}</span>`
  }<br />${held(message)}${hint !== '' && markup` <i>${hint}</i>`}`;
};

/** What was found on the way, the gravest first. */
export const findingsSection = ({ findings }: Overview): Html => {
  const sorted = [...findings].sort((a, b) => rank[a.severity] - rank[b.severity]);
  return markup`<section id=findings aria-labelledby="findings-h"><h2 id=findings-h>Findings</h2>${
    sorted.length === 0
      ? markup`<p>Nothing to report.</p>`
      : markup`<ul class=p>${toldOnce(sorted).map(item)}</ul>`
  }</section>`;
};
