import type { Overview, OverviewInstrument, OverviewStep } from './overview.ts';

/** Script, style, headings and explanations. */
const frame = 48_000;

/**
 * How many bytes a page of an overview takes at the most: its data to the byte, and what is shown
 * by counts and names. The figures are upper bounds of what the page writes for each thing; a test
 * holds them against pages.
 */
export const pageSize = (overview: Overview): number =>
  dataSize(overview) +
  frame +
  sumOf(overview.instruments, (one) => instrumentSize(one, overview.cues.length)) +
  sumOf(
    overview.cues,
    ({ id, needs, files, machines }) =>
      420 +
      4 * bytesOf(id) +
      43 * needs.length +
      40 * files.length +
      (60 + bytesOf(id)) * machines.length,
  ) +
  sumOf(overview.proof.cues, ({ id, files }) => 260 + bytesOf(id) + 40 * files.length) +
  sumOf(overview.worklist, ({ id, actions }) => 1600 + 8 * bytesOf(id) + sumOf(actions, stepSize)) +
  // Words of a finding are longer than its data by a sentence and a hint.
  sumOf(overview.findings, (one) => 700 + 2 * bytesOf(JSON.stringify(one))) +
  sumOf(overview.risks, (one) => 400 + 2 * bytesOf(JSON.stringify(one))) +
  sumOf(overview.proof.misses.slice(0, 12), (one) => 900 + 3 * bytesOf(JSON.stringify(one))) +
  2 *
    bytesOf(
      JSON.stringify([overview.groups, overview.printed, overview.versions, overview.doubts]),
    ) +
  8 * sumOf(overview.cues, ({ id }) => bytesOf(id));

/** The data as the page holds them: a `<` takes six bytes. */
const dataSize = (overview: Overview): number => {
  const text = JSON.stringify(overview);
  return bytesOf(text) + 5 * (text.split('<').length - 1);
};

const instrumentSize = (one: OverviewInstrument, cues: number): number =>
  1000 +
  4 * cues +
  9 * bytesOf(one.id) +
  bytesOf(one.source) +
  bytesOf(one.player) +
  sumOf(one.microphones, ({ name }) => 70 + bytesOf(name)) +
  sumOf(
    one.articulations,
    ({ name, switch: by, rows }) =>
      390 +
      2 * bytesOf(name) +
      bytesOf(by ?? '') +
      sumOf(rows, ({ cells, controllers }) => 135 + 20 * controllers.length + 18 * cells.length),
  );

const stepSize = ({ instrument, copy, unit, keeps }: OverviewStep): number =>
  225 +
  2 * bytesOf(instrument) +
  bytesOf(copy ?? '') +
  sumOf(unit.articulations, (name) => 14 + bytesOf(name)) +
  bytesOf(unit.microphone ?? '') +
  (keeps === null ? 0 : 120 + 24 * keeps.keys.length);

/** In UTF-8, however the page writes it out: names are of letters as a rule. */
const bytesOf = (text: string): number => {
  let bytes = text.length;
  for (let i = 0; i < text.length; i++) if (text.charCodeAt(i) > 0x7f) bytes += 2;
  return bytes;
};

const sumOf = <Value>(list: readonly Value[], of: (one: Value) => number): number =>
  list.reduce((sum, one) => sum + of(one), 0);
