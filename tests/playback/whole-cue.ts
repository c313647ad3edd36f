import type { Instrument } from '../../src/instruments/instrument.ts';
import { makePlan } from '../../src/keep/make-plan.ts';
import type { Plan } from '../../src/keep/plan.ts';
import type { Part } from '../../src/midi/parts.ts';
import type { Score } from '../../src/midi/score.ts';
import type { FileUsage } from '../../src/playback/zone-usage.ts';
import { RouteLog } from '../../src/template/routes/route-log.ts';
import { routeScore } from '../../src/template/routes/route-score.ts';
import type { Routed } from '../../src/template/routed.ts';
import { singleTemplate } from '../../src/template/single.ts';
import type { Template } from '../../src/template/template.ts';
import type { Settlements } from '../../src/terms/settlement.ts';

/** A template in which one instrument plays everything. */
export const wholeTemplate = ({ id, source }: Instrument): Template =>
  singleTemplate(id, { kind: 'soundfont', path: source, preset: null });

/** Every part of a cue goes to one instrument. */
export const routedWhole = (
  instrument: Instrument,
  score: Score,
  parts: readonly Part[],
  file = 0,
): Routed => {
  const instruments = new Map([[instrument.id, instrument]]);
  const template = wholeTemplate(instrument);
  return routeScore(template, '1m1', score, parts, file, instruments, new RouteLog());
};

/** The plan of one instrument that plays everything. */
export const planWhole = (
  instrument: Instrument,
  files: readonly FileUsage[],
  settle: Settlements = {},
): Plan =>
  makePlan({
    template: { ...wholeTemplate(instrument), settle },
    instruments: new Map([[instrument.id, instrument]]),
    files,
    reel: {
      without: [],
      newest: false,
      acceptPartial: [],
      allowUnmapped: false,
      split: null,
    },
    isPartial: false,
    rare: null,
    headroomCurve: false,
    findings: [],
  });
