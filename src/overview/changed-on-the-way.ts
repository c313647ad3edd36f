import type { Template } from '../template/template.ts';
import type { OverviewInstrument } from './overview-instrument.ts';

/** Rules of the template by which an instrument hears something else than is written, those that do the same together. */
export const changedOnTheWay = (
  { routes }: Pick<Template, 'routes'>,
  instrument: string,
): OverviewInstrument['changes'] => {
  const found = new Map<string, { readonly rules: string[]; readonly what: Changed }>();
  for (const { rule, outcome } of routes) {
    if (outcome.kind !== 'play' || !outcome.instruments.includes(instrument)) continue;
    const { transpose, velocity, controllers } = outcome.transform;
    const what: Changed = {
      transpose,
      velocity,
      controllers: [...controllers].filter(([from, to]) => from !== to),
    };
    if (transpose === 0 && velocity === 1 && what.controllers.length === 0) continue;
    const known = found.get(JSON.stringify(what));
    if (known === undefined) found.set(JSON.stringify(what), { rules: [rule], what });
    else known.rules.push(rule);
  }
  return [...found.values()].map(({ rules, what }) => ({ rules, ...what }));
};

type Changed = Omit<OverviewInstrument['changes'][number], 'rules'>;
