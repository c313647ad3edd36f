import type { HeadroomStep, Plan, PlanHeadroomCurve } from '../keep/plan.ts';
import { fixed, words, type Cell } from './cell.ts';
import { bytesIn, formatBytes, formatCount, plural, tableUnit } from './format.ts';
import { headroomFlag, headroomWords } from './headroom-words.ts';
import type { Look } from './look.ts';
import { nameList } from './name-list.ts';
import { paragraph } from './paragraph.ts';
import { layOut, notShown } from './table.ts';

const servedBy = ({ cuesServed, revisionsServed }: HeadroomStep): number =>
  cuesServed + revisionsServed;

/** The least that serves as many as anything that was tried. */
const best = (steps: readonly HeadroomStep[]): HeadroomStep | undefined => {
  const most = steps.reduce((sum, step) => Math.max(sum, servedBy(step)), 0);
  return steps.find((step) => servedBy(step) === most);
};

const isNone = ({ headroom: { keys, velocity } }: HeadroomStep): boolean =>
  keys === 0 && velocity === 0;

const servedWords = (
  { cuesServed, revisionsServed }: HeadroomStep,
  { cues, revisions }: PlanHeadroomCurve,
): string =>
  [
    ...(cues > 0 ? [`${formatCount(cuesServed)} of ${plural(cues, 'cue')}`] : []),
    ...(revisions > 0
      ? [`${formatCount(revisionsServed)} of ${plural(revisions, 'revision')}`]
      : []),
  ].join(' and ');

const headline = (step: HeadroomStep, curve: PlanHeadroomCurve, none: HeadroomStep): string => {
  const served = servedWords(step, curve);
  if (isNone(step)) {
    return step.missed.length === 0
      ? `Without headroom a plan of the others would have served ${served}.`
      : `Without headroom a plan of the others would have served ${served}, and no headroom that was tried serves more.`;
  }
  const room = headroomWords(step.headroom);
  const cost = step.bytes === 0 ? 'it costs nothing here' : `it costs ${formatBytes(step.bytes)}`;
  return `Headroom of ${room} would have served ${served}; ${cost}. Without any: ${servedWords(none, curve)}.`;
};

/** How much room around the other cues would have been enough for each cue; nothing where it was not asked for. */
export const headroomCurveTable = (plan: Plan, look: Look): readonly string[] => {
  const { headroomCurve: curve } = plan;
  if (curve === null) return [];
  const { colors, width } = look;
  const [none] = curve.steps;
  const step = best(curve.steps);
  if (none === undefined || step === undefined || curve.cues + curve.revisions === 0) {
    return paragraph(
      ['Headroom by evidence: there is no other cue that could be read to hold a cue against.'],
      width,
    );
  }
  const table = layOutSteps(curve, look);
  const damaged = plan.cues.some(({ state }) => state !== 'read');
  const lines = [
    ...(isNone(step)
      ? []
      : [`To have it: ${headroomFlag(step.headroom)}, or headroom: in the template.`]),
    ...(step.missed.length === 0
      ? []
      : [
          `Not served by ${headroomWords(step.headroom)}: ${nameList(step.missed, look)}.`,
          'No headroom replaces what no other cue asks for: an instrument, a copy, an articulation.',
        ]),
    'Each cue was left out in turn and looked up in a plan of the others, as if it had come later' +
      (curve.revisions > 0 ? '; each revision in a plan with the version before it.' : '.'),
    ...(damaged ? ['What could not be read was left aside: it keeps everything.'] : []),
  ];
  return [
    ...paragraph([{ text: headline(step, curve, none), paint: colors.bold }], width),
    '',
    ...table,
    ...lines.flatMap((line) => paragraph([line], width)),
  ];
};

const layOutSteps = (curve: PlanHeadroomCurve, look: Look): readonly string[] => {
  const { steps, cues, revisions } = curve;
  const unit = tableUnit(Math.max(...steps.map(({ bytes }) => bytes)));
  const of = (served: number, all: number): Cell =>
    fixed(
      `${formatCount(served)}/${formatCount(all)}`,
      served === all ? look.colors.green : undefined,
    );
  const rows = steps.map((step): readonly Cell[] => [
    words(headroomWords(step.headroom)),
    ...(cues > 0 ? [of(step.cuesServed, cues)] : []),
    ...(revisions > 0 ? [of(step.revisionsServed, revisions)] : []),
    fixed(formatCount(step.zones)),
    fixed(bytesIn(step.bytes, unit)),
  ]);
  const { text, leftOut } = layOut(
    [
      { title: ['Headroom'], align: 'left', min: 14 },
      ...(cues > 0 ? [{ title: ['Cues', 'served'], align: 'right' as const }] : []),
      ...(revisions > 0 ? [{ title: ['Revisions', 'served'], align: 'right' as const }] : []),
      { title: ['More', 'zones'], align: 'right', leaveOut: 1 },
      { title: ['Costs', unit.name], align: 'right' },
    ],
    rows,
    look,
  );
  return [text, ...notShown(leftOut, look)];
};
