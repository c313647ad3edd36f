import type { OverviewMiss } from '../../overview/overview-proof.ts';
import type { Overview } from '../../overview/overview.ts';
import { bullets } from '../bullets.ts';
import type { Look } from '../look.ts';
import { nameInText } from '../name-list.ts';
import { paragraph, type Paragraph } from '../paragraph.ts';
import { missSaid, moreMisses, mostMisses } from '../said/misses.ts';
import { stepsSaid } from '../said/missed-steps.ts';
import { capital, joinedSaid, said } from '../said/said.ts';
import { saidText } from './said-text.ts';

const miss = (overview: Overview, one: OverviewMiss, look: Look): Paragraph => {
  const { of, zones, notes, places, doubt, ways } = missSaid(one, look);
  const what = `${nameInText(one.instrument, look)}${saidText(of, look)}:`;
  const more = doubt === null ? '' : said` ${capital(doubt)}.`;
  const steps = stepsSaid(overview, one.steps);
  const doNot = steps === null ? '' : said` Do not do ${steps}.`;
  const asks = said`${zones} asked for by ${notes}. First at ${joinedSaid(places, '; ')}.${more} Ways out: ${joinedSaid(ways, '. Or ')}.${doNot}`;
  return [{ text: what, paint: look.colors.bold }, saidText(asks, look)];
};

/** What is missing, each with its place, its bytes and the ways out; nothing where nothing is. */
export const missingLines = (overview: Overview, look: Look): readonly string[] => {
  const { misses } = overview.proof;
  const more = moreMisses(overview);
  return [
    ...bullets(
      'What is missing, where',
      misses.slice(0, mostMisses).map((one) => miss(overview, one, look)),
      look,
    ),
    ...(misses.length === 0 || more === null ? [] : paragraph([saidText(more, look)], look.width)),
  ];
};
