import type { Finding, FindingArgs, Severity } from '../../../terms/finding.ts';
import type {
  Plan,
  PlanAllowance,
  PlanAllowances,
  PlanCue,
  PlanDoubt,
  PlanMachine,
  PlanTotal,
  PlanVersions,
} from '../../plan.ts';
import { headroomCurve, rare } from './asked-shape.ts';
import { instrument } from './instrument-shape.ts';
import { answer, doubt, settings } from './settings-shape.ts';
import {
  amount,
  count,
  digest,
  group,
  isGroup,
  list,
  oneOf,
  orNull,
  text,
  truth,
  whole,
  type Shape,
} from './shape.ts';

const cue = group<PlanCue>({
  id: text,
  files: list(group<PlanCue['files'][number]>({ path: text, sha256: digest })),
  version: orNull(count),
  parts: count,
  notes: count,
  seconds: amount,
  music: amount,
  lastMarker: orNull(amount),
  timecode: orNull(text),
  state: oneOf('read', 'damaged', 'unreadable'),
  tracks: group<PlanCue['tracks']>({ played: list(text), silent: list(text) }),
});

const machine = group<PlanMachine>({
  id: text,
  budget: orNull(count),
  bytes: group<PlanMachine['bytes']>({ full: count, kept: count, low: count, high: count }),
  fits: orNull(truth),
});

/** What doubts free is a difference: readings that do not go together can turn it round. */
const freed = whole;

const allowance = group<PlanAllowance>({ zones: whole, bytes: freed });

const total = group<PlanTotal>({
  bytes: group<PlanTotal['bytes']>({ full: count, reached: count, kept: count, saved: whole }),
  zones: count,
  zonesKept: count,
  samples: count,
  samplesKept: count,
});

/** Findings that are read again: tracks are counted, cues accepted, and both told once more. */
const readAgain: Readonly<Record<string, Shape<unknown>>> = {
  'part-unmapped': group<FindingArgs['part-unmapped']>({
    cue: text,
    tracks: list(orNull(text)),
    notes: count,
  }) as Shape<unknown>,
  'cue-looks-partial': group<FindingArgs['cue-looks-partial']>({
    cue: text,
    reason: oneOf('tracks-of-version', 'tracks-of-reel', 'markers'),
    tracks: list(text),
    missing: count,
    version: orNull(text),
    seconds: orNull(amount),
  }) as Shape<unknown>,
};

/** A later version may have other codes, with whatever they carry. */
const finding: Shape<Finding> = (value, faults) => {
  const shape = group<Record<'code' | 'severity' | 'file', unknown>>({
    code: text as Shape<unknown>,
    severity: oneOf<Severity>('error', 'warning', 'note') as Shape<unknown>,
    file: orNull(text) as Shape<unknown>,
  });
  shape(value, faults);
  if (!isGroup(value)) return;
  const code = String(value['code']);
  const args = Object.hasOwn(readAgain, code) ? readAgain[code]! : anyGroup;
  faults.within('args', args, value['args']);
  if (value['at'] !== null) faults.within('at', anyGroup, value['at']);
};

const anyGroup: Shape<unknown> = (value, faults) => {
  if (!isGroup(value)) faults.add('a group of values by name');
};

export const plan = group<Plan>({
  schema: oneOf('keepset/plan@1'),
  settings,
  template: orNull(group<{ readonly sha256: string }>({ sha256: digest })),
  cues: list(cue),
  instruments: list(instrument),
  machines: list(machine),
  doubts: list(
    group<PlanDoubt>({ name: doubt, settled: orNull(answer), zones: whole, bytes: freed }),
  ),
  together: list(group<Plan['together'][number]>({ names: list(doubt), bytes: freed })),
  doubtsAll: freed,
  printed: group<Plan['printed']>({ parts: count, zones: whole, bytes: freed }),
  allowances: group<PlanAllowances>({ headroom: allowance, pins: list(allowance) }),
  versions: list(
    group<PlanVersions>({ cue: text, versions: list(text), zones: whole, bytes: freed }),
  ),
  rare: orNull(rare),
  headroomCurve: orNull(headroomCurve),
  total,
  findings: list(finding),
});
