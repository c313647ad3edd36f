import type { Plan, PlanAllowance } from '../../plan.ts';
import type { Disagreements } from './disagreements.ts';

/** @param instruments ids */
export const settingsAgree = (
  { settings, template, instruments: all, allowances, total }: Plan,
  instruments: ReadonlySet<string>,
  found: Disagreements,
): void => {
  const { instrument, pins, settle } = settings;
  // There is a template, or one instrument that plays all.
  if (instrument === null && template === null) found.never('instrument-alone', 'null');
  if (instrument !== null) {
    if (template !== null) found.never('instrument-alone', instrument);
    found.same('instruments', all.length, 1);
  }
  for (const pin of pins) found.known('pin', pin.instrument, instruments);
  if (Object.hasOwn(settle, 'damage')) found.never('answer', 'damage');
  const kept = all.reduce((sum, one) => sum + one.kept.length, 0);
  const { keys, velocity, controller } = settings.headroom;
  const isWide = Math.max(keys, velocity, controller) > 0;
  const limit = (allowance: PlanAllowance, of: string, isAny: boolean): void => {
    found.atMost('allowance-zones', allowance.zones, isAny ? kept : 0, of);
    found.atMost('allowance-bytes', allowance.bytes, isAny ? total.bytes.kept : 0, of);
  };
  limit(allowances.headroom, 'headroom', isWide);
  found.same('allowance-pins', allowances.pins.length, pins.length);
  allowances.pins.forEach((one, i) => limit(one, `pin ${String(i + 1)}`, true));
};
