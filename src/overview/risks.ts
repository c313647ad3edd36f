import type { Finding } from '../terms/finding.ts';
import type { OverviewInput } from './overview-input.ts';
import type { OverviewMachine } from './overview-machines.ts';
import type { OverviewRisk } from './overview-proof.ts';

/** Less than this part of a budget to spare is tight. */
const tightPart = 20;

/** What a mix engineer should know, in the order in which {@link OverviewRisk} lists it. */
export const overviewRisks = (
  { plan, check }: Pick<OverviewInput, 'plan' | 'check'>,
  machines: readonly OverviewMachine[],
  findings: readonly Finding[],
): readonly OverviewRisk[] => {
  const { settings, cues, instruments } = plan;
  const { proof } = check;
  const settled = proof.settled
    .filter(({ answer }) => answer === 'plain')
    .map(({ doubt, instruments: where }) => ({
      kind: 'settled' as const,
      doubt,
      instruments: where,
    }));
  const all = [...cues, ...proof.cues];
  const inState = (state: string): readonly string[] =>
    all.flatMap((cue) => (cue.state === state ? [cue.id] : []));
  const known = new Set(all.map(({ id }) => id));
  return [
    ...settled,
    ...aboutCues('left-out', [...settings.without, ...proof.leftOut]),
    ...aboutCues('damaged', inState('damaged')),
    ...aboutCues('unreadable', inState('unreadable')),
    ...aboutCues(
      'accepted',
      [...settings.acceptPartial, ...proof.accepted].filter((id) => known.has(id)),
    ),
    ...aboutInstruments(
      'unknown-size',
      instruments.flatMap(({ bytes }, i) => (bytes.unknownSamples > 0 ? [i] : [])),
    ),
    ...machines.flatMap(room),
    ...unmapped(findings),
    ...aboutInstruments('silent-notes', silent(findings, instruments)),
    ...(Object.values(settings.headroom).every((room) => room === 0)
      ? [{ kind: 'no-headroom' as const }]
      : []),
  ];
};

const aboutCues = (
  kind: 'left-out' | 'damaged' | 'unreadable' | 'accepted',
  ids: readonly string[],
): readonly OverviewRisk[] => (ids.length === 0 ? [] : [{ kind, cues: [...new Set(ids)] }]);

const aboutInstruments = (
  kind: 'unknown-size' | 'silent-notes',
  instruments: readonly number[],
): readonly OverviewRisk[] => (instruments.length === 0 ? [] : [{ kind, instruments }]);

const room = ({ budget, bytes }: OverviewMachine, machine: number): readonly OverviewRisk[] => {
  if (budget === null) return [];
  const spare = budget - bytes.high;
  if (spare < 0) return [{ kind: 'over', machine, bytes: -spare }];
  return spare * tightPart < budget ? [{ kind: 'tight', machine, bytes: spare }] : [];
};

const unmapped = (findings: readonly Finding[]): readonly OverviewRisk[] => {
  const parts = findings.reduce(
    (sum, one) => sum + (one.code === 'part-unmapped' ? one.args.tracks.length : 0),
    0,
  );
  return parts === 0 ? [] : [{ kind: 'unmapped', parts }];
};

const silent = (
  findings: readonly Finding[],
  instruments: readonly { readonly id: string }[],
): readonly number[] => {
  const ids = new Set(
    findings.flatMap((one) =>
      one.code === 'notes-without-zone' || one.code === 'settled-silent'
        ? [one.args.instrument]
        : [],
    ),
  );
  return instruments.flatMap(({ id }, i) => (ids.has(id) ? [i] : []));
};
