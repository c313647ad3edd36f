import type { Instrument } from '../../instruments/instrument.ts';
import { askedRanges } from '../../instruments/switches.ts';
import type { CopyUsage, FileUsage } from '../../playback/zone-usage.ts';
import { finding, type Finding } from '../../terms/finding.ts';
import { contains } from '../../terms/range.ts';
import type { PlanChoice, PlanCopy, PlanInstrument } from '../plan.ts';
import type { LearnedCopy } from '../reach.ts';

/**
 * What copies chose in cues of the plan that are not checked: a checked cue that chooses nothing may
 * find them so.
 *
 * @param absent ids of the cues that are not checked
 */
export const learnedFrom = (
  { copies }: PlanInstrument,
  absent: ReadonlySet<string>,
): readonly LearnedCopy[] =>
  copies.map(({ name, chosen }) => ({
    copy: name,
    chosen: chosen.filter(({ cue }) => absent.has(cue)).map(toChoice),
  }));

const toChoice = ({ signal, channel, values }: PlanChoice): CopyUsage['chosen'][number] => ({
  signal,
  channel: channel === null ? -1 : channel - 1,
  values,
});

/**
 * Copies whose choices have changed so that cues which are not checked, and which play before they
 * choose, may reach something else than was planned.
 */
export const choiceFindings = (
  instrument: Instrument,
  planned: PlanInstrument,
  files: readonly FileUsage[],
  absent: ReadonlySet<string>,
): readonly Finding[] => {
  if (absent.size === 0) return [];
  const asked = askedRanges(instrument.program);
  const isAsked = (signal: number, value: number): boolean =>
    asked[signal]?.some((range) => contains(range, value)) === true;
  const now = files.flatMap(({ copies }) =>
    copies.filter((copy) => copy.instrument === instrument.id),
  );
  const choices = ({ name, chosen }: PlanCopy) => {
    const own = now.filter(({ copy }) => copy === name).flatMap((copy) => copy.chosen);
    const before = chosen.map(toChoice);
    const kept = chosen.filter(({ cue }) => absent.has(cue)).map(toChoice);
    return { own, before, kept };
  };
  const depending = planned.copies.filter(({ opensUnset }) => opensUnset);
  const added = depending.filter((copy) => {
    const { own, before } = choices(copy);
    return own.some(({ signal, channel, values }) =>
      values.some(
        (value) =>
          isAsked(signal, value) &&
          !before.some(
            (one) => one.signal === signal && one.channel === channel && one.values.includes(value),
          ),
      ),
    );
  });
  const gone = depending.filter((copy) => {
    const { own, before, kept } = choices(copy);
    const any = (list: readonly CopyUsage['chosen'][number][]): boolean =>
      list.some(({ signal, values }) => values.some((value) => isAsked(signal, value)));
    return any(before) && !any(kept) && !any(own);
  });
  const { id, source } = instrument;
  const told = (list: readonly PlanCopy[]) => ({
    instrument: id,
    copies: list.map(({ name }) => name),
  });
  return [
    ...(added.length > 0 ? [finding('warning', 'check-choice-new', source, told(added))] : []),
    ...(gone.length > 0 ? [finding('warning', 'check-choices-gone', source, told(gone))] : []),
  ];
};
