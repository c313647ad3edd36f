import { findArticulation } from '../instruments/find-articulation.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import type { Template } from '../template/template.ts';
import { finding, type Finding } from '../terms/finding.ts';
import type { Subject } from './decision.ts';
import type { Plan } from './plan.ts';

/** What deserves a second look: nothing saved, nothing played, too much for a machine, odd pins. */
export const planFindings = (
  { instruments, machines, total }: Plan,
  template: Template,
  subjects: readonly Subject[],
  files: readonly FileUsage[],
): readonly Finding[] => {
  const printed = new Set(
    files.flatMap(({ copies }) =>
      copies.flatMap((copy) => (copy.printed ? [copy.instrument] : [])),
    ),
  );
  const unused = instruments
    .filter(({ zonesKept }) => zonesKept === 0)
    .map(({ id, source, bytes }) => {
      const args = { instrument: id, bytes: bytes.full };
      return printed.has(id)
        ? finding('note', 'instrument-printed', source, args)
        : finding('warning', 'instrument-unused', source, args);
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
  return [...unused, ...nothing, ...tooMuch, ...oddPins(template, subjects)];
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
