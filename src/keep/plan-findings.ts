import { findArticulation } from '../instruments/find-articulation.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import type { Template } from '../template/template.ts';
import { finding, type Finding } from '../terms/finding.ts';
import type { Subject } from './decision.ts';
import type { Plan } from './plan.ts';
import type { Silence, Silences } from './silence.ts';

interface FindingsContext {
  readonly files: readonly FileUsage[];
  /** By instrument, the bytes that its machine has less without it. */
  readonly freed: ReadonlyMap<string, number>;
  /** Only some cues of the reel were asked for: what they leave unused is no surprise. */
  readonly isPartial: boolean;
}

/** What deserves a second look: nothing saved, nothing played, too much for a machine, odd pins. */
export const planFindings = (
  { instruments, machines, total }: Plan,
  template: Template,
  subjects: readonly Subject[],
  { files, freed, isPartial }: FindingsContext,
): readonly Finding[] => {
  const printed = new Set(
    files.flatMap(({ copies }) =>
      copies.flatMap((copy) => (copy.printed ? [copy.instrument] : [])),
    ),
  );
  const silent = subjects.flatMap(({ instrument, tally: { silences } }) =>
    silentNotes(instrument, silences),
  );
  const unused = instruments
    .filter(({ zonesKept }) => zonesKept === 0)
    .flatMap(({ id, source, bytes }): readonly Finding[] => {
      // It is played, and its notes are silent: that has a finding of its own.
      const { silences } = subjects.find(({ instrument }) => instrument.id === id)!.tally;
      if (silences.settled.notes > 0 || silences.withoutZone.notes > 0) return [];
      const args = { instrument: id, bytes: freed.get(id) ?? bytes.full };
      return [
        printed.has(id)
          ? finding('note', 'instrument-printed', source, args)
          : finding(isPartial ? 'note' : 'warning', 'instrument-unused', source, args),
      ];
    });
  const nothing =
    total.bytes.full > 0 && total.bytes.kept === total.bytes.full
      ? [finding('note', 'nothing-saved', instruments[0]!.source, {})]
      : [];
  const tooMuch = machines.flatMap(({ id, budget, fits, bytes: { high } }) =>
    budget === null || fits !== false
      ? []
      : [finding('warning', 'machine-over-budget', null, { machine: id, high, budget })],
  );
  return [...silent, ...unused, ...nothing, ...tooMuch, ...oddPins(template, subjects)];
};

/** Notes of an instrument that make no sound. */
export const silentNotes = (
  { id, source }: Subject['instrument'],
  { withoutZone, settled }: Silences,
): readonly Finding[] => {
  const common = ({ notes, cues }: Silence) => ({ instrument: id, notes, cues: [...cues] });
  const none = (): Finding =>
    finding('warning', 'notes-without-zone', source, {
      ...common(withoutZone),
      keys: [...withoutZone.keys].sort((a, b) => a - b),
      tracks: [...withoutZone.tracks],
    });
  const answered = (): Finding =>
    finding('warning', 'settled-silent', source, {
      ...common(settled),
      doubts: [...settled.doubts].sort(),
    });
  return [...(withoutZone.notes > 0 ? [none()] : []), ...(settled.notes > 0 ? [answered()] : [])];
};

const oddPins = (template: Template, subjects: readonly Subject[]): readonly Finding[] =>
  template.pins.flatMap(({ instrument: id, articulation, at }): readonly Finding[] => {
    const subject = subjects.find(({ instrument }) => instrument.id === id);
    if (subject === undefined || articulation === null) return [];
    const { indices, near } = findArticulation(subject.instrument.articulations, articulation);
    if (indices.length > 0) return [];
    const args = { instrument: id, articulation, near };
    return [finding('warning', 'pin-articulation', template.path, args, at)];
  });
