import type { Overview, Reduction } from './overview.ts';
import { pageSize } from './page-size.ts';
import { reductions } from './reductions.ts';

/** What a page may take: it is sent by mail and opened from a stick. */
export const mostPageBytes = 2 * 2 ** 20;

/**
 * An overview whose page is small enough: as it is where it is, else with as few reductions as that
 * takes. Where all of them are not enough, all are taken: that is never so for 150 instruments and 60
 * cues.
 *
 * @param most bytes of the page
 */
export const fitToPage = (overview: Overview, most = mostPageBytes): Overview => {
  let fitted = overview;
  const taken: Reduction[] = [];
  for (const [name, reduce] of reductions) {
    if (pageSize(fitted) <= most) break;
    taken.push(name);
    fitted = { ...reduce(fitted), reduced: [...taken] };
  }
  // Where the bytes lie elsewhere, some need not have been given up: first that which is missed most.
  for (const name of taken.toReversed()) {
    if (taken.length === 1 || pageSize(fitted) > most) break;
    const without = taken.filter((one) => one !== name);
    const fuller = reducedBy(overview, without);
    if (pageSize(fuller) > most) continue;
    fitted = fuller;
    taken.splice(0, taken.length, ...without);
  }
  return fitted;
};

const reducedBy = (overview: Overview, names: readonly Reduction[]): Overview => {
  const reduced = reductions
    .filter(([name]) => names.includes(name))
    .reduce((less, [, reduce]) => reduce(less), overview);
  return { ...reduced, reduced: names };
};
