import type { Overview, Reduction } from '../../../overview/overview.ts';
import { finding } from '../../../terms/finding.ts';
import { reductions } from './reductions.ts';

/** What a page may take: it is sent by mail and opened from a stick. */
export const mostPageBytes = 2 * 2 ** 20;

/** How a page is made, and measured in bytes. */
export interface PageMaker {
  readonly make: (overview: Overview) => string;
  readonly bytesOf: (page: string) => number;
}

/**
 * The page of an overview within a size: with all that it tells where there is room for it, else with
 * what is least missed given up, one {@link Reduction} after the other. Pages are made and measured, so
 * that nothing is given up on a guess. Where even the least page is too large, an empty one would not
 * help: then twice the least may be used, and a finding on the page says that it is too large.
 *
 * @param most bytes that the page may take
 */
export const fittedPage = (overview: Overview, maker: PageMaker, most = mostPageBytes): string => {
  const names = reductions.map(([name]) => name);
  const fitting = pageUpTo(overview, names, maker, most);
  if (fitting !== null) return fitting;
  const least = maker.bytesOf(maker.make(reducedBy(overview, names)));
  const told: Overview = {
    ...overview,
    findings: [...overview.findings, finding('note', 'report-page-large', null, { most })],
  };
  // The finding itself takes less than a page's frame.
  return pageUpTo(told, names, maker, 2 * least) ?? maker.make(told);
};

/** null: none is small enough. */
const pageUpTo = (
  overview: Overview,
  names: readonly Reduction[],
  { make, bytesOf }: PageMaker,
  most: number,
): string | null => {
  const made = (of: Overview): string | null => {
    // A page holds its data, so that most of what is too large need not be made.
    if (dataLength(of) > most) return null;
    const html = make(of);
    return bytesOf(html) > most ? null : html;
  };
  const whole = made(overview);
  if (whole !== null) return whole;
  let fitted = overview;
  let html: string | null = null;
  let taken: readonly Reduction[] = [];
  for (const name of names) {
    const less = reduceOf.get(name)!(fitted);
    if (less === fitted) continue;
    taken = [...taken, name];
    fitted = { ...less, reduced: taken };
    html = made(fitted);
    if (html !== null) break;
  }
  if (html === null) return null;
  // Where the bytes lie elsewhere, some need not have been given up: first that which is missed most.
  // Without the last one it was too large.
  for (const name of taken.slice(0, -1).reverse()) {
    const without = taken.filter((one) => one !== name);
    const fuller = reducedBy(overview, without);
    const page = made(fuller);
    if (page === null) continue;
    html = page;
    taken = without;
  }
  return html;
};

const dataLength = (overview: Overview): number => JSON.stringify(overview).length;

const reduceOf = new Map(reductions);

const reducedBy = (overview: Overview, names: readonly Reduction[]): Overview => {
  const reduced = reductions
    .filter(([name]) => names.includes(name))
    .reduce((less, [, reduce]) => reduce(less), overview);
  return { ...reduced, reduced: names };
};
