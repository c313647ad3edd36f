/**
 * Answers from what a person sees on the page: its text as the browser lays it out, lines and tabs, no
 * attribute, no data. It knows words, not how the page is made.
 */

const lines = (text: string): string[] =>
  text
    .split('\n')
    .map((line) => line.replace(/[\u00a0\u2009\u202f]/g, ' ').trim())
    .filter((line) => line !== '');

/** Rows below a heading that stand in a table with these column heads, by the heads. */
const tableBelow = (
  text: string,
  heading: string,
  ...heads: readonly string[]
): readonly ReadonlyMap<string, string>[] => {
  const all = lines(text);
  const from = all.lastIndexOf(heading);
  if (from < 0) throw new Error(`no heading says ${heading}`);
  const below = all.slice(from).map((line) => line.split('\t').map((cell) => cell.trim()));
  const head = below.findIndex((cells) => heads.every((one) => cells.includes(one)));
  if (head < 0) throw new Error(`no table below ${heading} has ${heads.join(', ')}`);
  const names = below[head]!;
  const rows = below.slice(head + 1);
  const end = rows.findIndex((cells) => cells.length < heads.length);
  return rows
    .slice(0, end < 0 ? undefined : end)
    .map((cells) => new Map(names.map((name, i) => [name, cells[i] ?? ''])));
};

/** What the verdict says is saved, with its unit. */
export const bytesSaved = (text: string): string | null =>
  /([\d. ]*\d (?:B|[KMG]iB)) (?:is|are) saved/.exec(lines(text).join(' '))?.[1]?.trim() ?? null;

/** Whether a machine fits: the word that the table of machines begins its answer with. */
export const machineFits = (text: string, machine: string): boolean | null => {
  const row = tableBelow(text, 'Machines', 'Machine', 'Fits').find(
    (cells) => cells.get('Machine') === machine,
  );
  const word = /^(yes|no)\b/i.exec(row?.get('Fits') ?? '')?.[1];
  return word === undefined ? null : word.toLowerCase() === 'yes';
};

/** What the same answer says of the steps that it takes: nothing where it says no. */
export const fitsAfter = (text: string, machine: string): string | null => {
  const row = tableBelow(text, 'Machines', 'Machine', 'Fits').find(
    (cells) => cells.get('Machine') === machine,
  );
  return /; fits (.+)$/.exec(row?.get('Fits') ?? '')?.[1] ?? null;
};

/** Whether the composer is told that an articulation may still be written; null: nothing is said. */
export const mayPlay = (text: string, instrument: string, articulation: string): boolean | null => {
  const all = lines(text);
  // Behind its name stand, in brackets, the tracks that play it.
  const from = all.findIndex((one) =>
    [':', ' ('].some((sign) => one.startsWith(`${instrument}${sign}`)),
  );
  if (from < 0) return null;
  // All of an instrument ends with a full stop: it may go over several lines.
  const to = all.findIndex((one, i) => i >= from && one.endsWith('.'));
  const entry = all.slice(from, to + 1).join(' ');
  const told = entry.slice(entry.indexOf(':') + 1, -1);
  for (const part of told.split(';')) {
    const names = part.split(':')[0]!.split(',');
    if (names.some((name) => name.trim() === articulation)) return !part.endsWith(': gone');
  }
  return null;
};

/** The first place where something is missing, as the verdict names it. */
export const firstFailing = (
  text: string,
): { readonly cue: string; readonly bar: number; readonly beat: number } | null => {
  const verdict = lines(text).find((line) => line.startsWith('Missing'));
  const found = /first at (.+?),? bar (\d+),? beat ([\d.]+)\b/.exec(verdict ?? '');
  if (found === null) return null;
  return { cue: found[1]!, bar: Number(found[2]), beat: Number(found[3]) };
};

/** What frees most: its steps, what they are about, and the figure with the unit that its table names. */
export const largestAction = (
  text: string,
): {
  readonly machine: string;
  readonly instrument: string;
  readonly what: string;
  readonly steps: string;
  readonly frees: string;
} | null => {
  const all = lines(text);
  if (/^Nothing\b/.test(all[all.lastIndexOf('What frees most') + 1] ?? '')) return null;
  const row = tableBelow(text, 'What frees most', 'Machine', 'Instrument', 'Frees')[0];
  if (row === undefined) return null;
  const unit = /free most, (B|[KMG]iB)\./.exec(text)?.[1] ?? '';
  return {
    machine: row.get('Machine') ?? '',
    instrument: row.get('Instrument') ?? '',
    what: row.get('What to unload') ?? '',
    steps: row.get('Steps') ?? '',
    frees: `${row.get('Frees') ?? ''} ${unit}`,
  };
};
