import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { report } from '../../src/jobs/report.ts';
import type { OverviewMachine } from '../../src/overview/overview-machines.ts';
import type { Overview } from '../../src/overview/overview.ts';
import { plainColors } from '../../src/report/colors.ts';
import type { Look } from '../../src/report/look.ts';
import { markdownLook } from '../../src/report/markdown/markdown-look.ts';
import { markdownTitle } from '../../src/report/markdown/titles.ts';
import { toMarkdown } from '../../src/report/markdown/to-markdown.ts';
import { playingByCopy } from '../../src/report/said/playing-by-copy.ts';
import { playingWords } from '../../src/report/said/playing-words.ts';
import { reportText } from '../../src/report/report-text.ts';
import { displayWidth } from '../../src/report/text-width.ts';
import { printable } from '../../src/terms/printable.ts';
import { smallRig } from '../overview/small-rig.ts';
import { hostileNames } from './fixtures/names.ts';
import { hostileOverview, missingOverview, overview, wholeOverview } from './fixtures/overview.ts';
import { all, everything, parse, shown, type Node } from './markdown/parse.ts';
import { overviewOfSize } from './page/overview-of-size.ts';

const piped: Look = { colors: plainColors, ascii: false, width: null };

const markdownOf = (of: Overview): string =>
  toMarkdown(reportText(of, markdownLook(piped)), markdownTitle(of.schema));

/** Machine a is far too small. */
const tooSmall = await report({
  files: new MemoryFiles({
    ...smallRig,
    'keepset.yaml': String(smallRig['keepset.yaml']).replace('memory: 40 MB', 'memory: 6 MB'),
  }),
});

const large = overviewOfSize({ instruments: 30, articulations: 6, rows: 3, cells: 8, cues: 40 });

/** Nothing is missing as far as can be seen, and no keep file can be written. */
const refused: Overview = {
  ...missingOverview,
  title: null,
  keep: { path: null, sha256: null, refused: { why: 'unreadable', cues: ['1m2'] } },
  proof: {
    ...missingOverview.proof,
    ...{ verdict: 'not-proved', misses: [] },
    total: { misses: 0, notes: 0, doubtfulNotes: 0, bytes: 0 },
  },
};

/** The figures of one machine are uncertain, the other has no budget. */
const uncertain: Overview = {
  ...overview,
  machines: overview.machines.map((machine, i) =>
    i === 0
      ? { ...machine, bytes: { ...machine.bytes, low: 8_100_000, high: 9_900_000 } }
      : { ...machine, budget: null, fits: null },
  ),
};

const cases: readonly (readonly [string, Overview])[] = [
  ['proved', overview],
  ['missing', missingOverview],
  ['whole', wholeOverview],
  ['too small', tooSmall],
  ['refused', refused],
  ['uncertain', uncertain],
  ['large', large],
  ['hostile', hostileOverview],
];

type Row = Readonly<Record<string, string>>;

/** The rows of the table under a heading, each cell by its title, read by a parser that is not ours. */
const rowsUnder = (root: Node, heading: RegExp): readonly Row[] => {
  const blocks = root.children ?? [];
  const at = blocks.findIndex((one) => one.type === 'heading' && heading.test(shown(one)));
  const table = at < 0 ? undefined : blocks.slice(at).find((one) => one.type === 'table');
  const [head, ...rows] = (table?.children ?? []).map((row) => (row.children ?? []).map(shown));
  return rows.map((row) => Object.fromEntries(row.map((cell, i) => [head?.[i] ?? '', cell])));
};

const sizes: Readonly<Record<string, number>> = {
  B: 1,
  KiB: 2 ** 10,
  MiB: 2 ** 20,
  GiB: 2 ** 30,
};

/** A cell of a column whose title ends in a unit: how many bytes it says, as nearly as it is rounded. */
const expectBytes = (row: Row, title: string, bytes: number): void => {
  const [name = '', cell = ''] = Object.entries(row).find(([one]) => one.startsWith(title)) ?? [];
  const size = sizes[name.split(' ').at(-1) ?? ''] ?? NaN;
  if (cell === '<0.1') {
    expect(bytes / size).toBeGreaterThan(0);
    expect(bytes / size).toBeLessThan(0.1);
    return;
  }
  expect(cell, name).toMatch(/^\d[\d .]*$/u);
  expect(Math.abs(Number(cell.replaceAll(' ', '')) - bytes / size)).toBeLessThanOrEqual(0.0501);
};

/** @example numbersIn('3-5, 12') // [3, 4, 5, 12] */
const numbersIn = (text: string): readonly number[] =>
  text.split(', ').flatMap((run) => {
    const [first = NaN, last = first] = run.split('-').map(Number);
    return Array.from({ length: last - first + 1 }, (_, i) => first + i);
  });

/** A figure of a sentence has three figures, and is exact below 1 KiB. */
const expectFigure = (text: string | undefined, bytes: number): void => {
  const [, figure = '', unit = ''] = /^([\d .]+) ([KMG]?i?B)$/u.exec(text ?? '') ?? [];
  const said = Number(figure.replaceAll(' ', '')) * (sizes[unit] ?? NaN);
  expect(Math.abs(said - bytes), text).toBeLessThanOrEqual(bytes * 0.005);
};

const amount = '(\\d[\\d .]* [KMG]?i?B)';

const expectFits = (text: string, machine: OverviewMachine): void => {
  const { fits, fitsNow, fitsAfter, budget, bytes } = machine;
  if (budget === null) {
    expect(text).toBe('no budget given');
    return;
  }
  const pattern = `^(yes|! no|! perhaps not), (?:up to )?${amount} (?:to spare|too much)(?:; .+)?$`;
  const [, word, figure] = new RegExp(pattern, 'u').exec(text)!;
  expect(word === 'yes').toBe(fits);
  expect(text.endsWith('; fits as it is')).toBe(fits === true && fitsNow === true);
  const after = /; fits after step (\d+)$/u.exec(text)?.[1];
  expect(after).toBe(fits === true && fitsAfter !== null ? String(fitsAfter) : undefined);
  expect(word === '! no').toBe(bytes.kept > budget);
  expectFigure(figure, Math.abs(budget - bytes.high));
};

describe.each(cases.slice(0, -1))('every figure is that of the overview: %s', (_, of) => {
  const { proof, keep, total } = of;

  test('the verdict, what is saved, and what it rests on', () => {
    const text = reportText({ ...of, title: null }, piped);
    const word = { proved: 'Proved:', 'not-proved': 'Not proved:', missing: 'Missing:' };
    expect(text.startsWith(`${word[proof.verdict]} `)).toBe(true);
    const memory = `^${amount} of ${amount} stay loaded, ${amount} are saved\\.$`;
    const [, kept, full, saved] = new RegExp(memory, 'mu').exec(text)!;
    expectFigure(kept, total.bytes.kept);
    expectFigure(full, total.bytes.full);
    expectFigure(saved, total.bytes.saved);
    const [, zonesKept, zones] = /^Stays: ([\d ]+) of ([\d ]+) zones?,/mu.exec(text)!;
    expect([zonesKept, zones].map((one) => Number(one!.replaceAll(' ', '')))).toEqual([
      total.zonesKept,
      total.zones,
    ]);
    const file = /^Keep file: (.*)$/mu.exec(text)?.[1];
    expect(file).toBe(
      keep.sha256 === null
        ? 'none: no keep file can be written of this plan: 1m2 could not be read.'
        : `${keep.path ?? 'made for this report'}, sha256 ${keep.sha256.slice(0, 12)}.`,
    );
    expect(text.includes('\nNot checked: ')).toBe(proof.absent.length > 0);
  });

  test('machines', async () => {
    const rows = rowsUnder(await parse(markdownOf(of)), /^Machines$/u);
    expect(rows.map((row) => row['Machine'])).toEqual(of.machines.map(({ id }) => id));
    of.machines.forEach((machine, i) => {
      const { bytes, budget } = machine;
      const row = rows[i]!;
      expectBytes(row, 'Now', bytes.full);
      expectBytes(row, 'After', bytes.kept);
      if (budget === null) expect(Object.values(row)).toContain('none');
      else expectBytes(row, 'Budget', budget);
      const [title = '', between = ''] =
        Object.entries(row).find(([one]) => one.startsWith('Between')) ?? [];
      if (bytes.low === bytes.high) expect(between).toBe('');
      else {
        const [low = '', high = ''] = between.split('-');
        expectBytes({ [title]: low }, title, bytes.low);
        expectBytes({ [title]: high }, title, bytes.high);
      }
      expectFits(row['Fits']!, machine);
    });
  });

  test('what to do first, by the numbers of the worklist', async () => {
    const rows = rowsUnder(await parse(markdownOf(of)), /^What frees most$/u);
    expect(rows).toHaveLength(of.actions.length);
    of.actions.forEach(({ numbers, machine, instrument, frees }, i) => {
      const row = rows[i]!;
      expect(numbersIn(row['Step']!)).toEqual(numbers);
      expect(row['Machine']).toBe(of.machines[machine]!.id);
      expect(row['Instrument']!.startsWith(of.instruments[instrument]!.id)).toBe(true);
      expectBytes(row, 'Frees', frees);
    });
  });

  test('open doubts with a price, the dearest first', async () => {
    const rows = rowsUnder(await parse(markdownOf(of)), /^Doubts by price$/u);
    const open = of.doubts.filter(({ settled, bytes }) => settled === null && bytes > 0);
    expect(rows).toHaveLength(open.length === 0 ? 0 : open.length + 1);
    const names = rows.slice(0, -1).map((row) => row['Doubt']);
    const prices = names.map((name) => open.find((one) => one.name === name)!.bytes);
    expect(prices).toEqual([...prices].sort((a, b) => b - a));
    rows.slice(0, -1).forEach((row) => {
      const doubt = open.find((one) => one.name === row['Doubt'])!;
      expect(row['Zones']).toBe(String(doubt.zones));
      expectBytes(row, 'Frees', doubt.bytes);
    });
    if (open.length > 0) expectBytes(rows.at(-1)!, 'Frees', of.doubtsAll);
  });

  test('what can still be written, all of it, and what is not loaded', async () => {
    const text = shown(await parse(markdownOf(of)));
    const stay = of.instruments.filter(({ zonesKept }) => zonesKept > 0);
    for (const instrument of stay) {
      for (const { articulations } of playingByCopy(instrument)) {
        const { lines, gone } = playingWords(articulations, of.middleC);
        for (const { texts } of lines) {
          for (const one of texts) expect(text).toContain(one.replaceAll('\u00a0', ' '));
        }
        for (const name of gone) expect(text).toContain(name);
      }
    }
    const gone = of.instruments.filter(({ zonesKept }) => zonesKept === 0).map(({ id }) => id);
    expect(text.includes('Not loaded at all:')).toBe(gone.length > 0);
    if (gone.length > 0) expect(text).toContain(`Not loaded at all: ${gone.join(', ')}.`);
  });

  test('cues, their versions and files', async () => {
    const rows = rowsUnder(await parse(markdownOf(of)), /^For the mix/u);
    expect(rows.map((row) => [row['Cue'], row['Version'], row['File, sha256']])).toEqual(
      proof.cues.map(({ id, version, files }) => [
        id,
        version === null ? '' : String(version),
        files.map(({ sha256 }) => sha256.slice(0, 12)).join(', '),
      ]),
    );
    expect(rows.map((row) => Number(row['Notes']))).toEqual(proof.cues.map(({ notes }) => notes));
  });

  test('what is missing, each with its place, bytes and ways out', async () => {
    const items = all(await parse(markdownOf(of)), 'listItem').map(shown);
    const told = items.filter((item) => item.includes('Ways out: '));
    expect(told).toHaveLength(proof.misses.length);
    proof.misses.forEach(({ instrument, zones, doubtfulZones, places, bytes, ways }, i) => {
      const item = told[i]!;
      expect(item.startsWith(`${instrument}, `)).toBe(true);
      expect(item).toContain(`: ${String(zones > 0 ? zones : doubtfulZones)} zone`);
      expect(item).toContain(`First at ${places[0]!.cue} bar ${String(places[0]!.bar)} beat`);
      expectFigure(new RegExp(`load it again, ${amount}`, 'u').exec(item)?.[1], bytes);
      // To load it again comes first, to print it last.
      expect(item.split(' Or ')).toHaveLength(ways.length + 2);
      expect(item).toContain(' Or print as audio: ');
    });
  });
});

test('the parts stand in one order, and each is there only where it says something', () => {
  const order = [
    'The Ferry',
    'What is missing, where',
    'What stands against a proof',
    'Machines',
    'What frees most',
    'Doubts by price',
    'For the composer: what can still be written',
    'For the mix: cues and files',
    'Risks',
  ];
  const headings = (of: Overview): readonly string[] =>
    reportText(of, piped)
      .split('\n')
      .filter((line) => order.includes(line));
  expect(headings(wholeOverview)).toEqual(order);
  expect(headings(overview)).toEqual(order.filter((one) => !/against|missing/u.test(one)));
});

test('steps that are against what was checked are named above what frees most, and by each miss', () => {
  const told = reportText(missingOverview, piped);
  const missed = missingOverview.worklist.flatMap(({ actions }) =>
    actions.filter((step) => step.missed !== null).map(({ number }) => number),
  );
  expect(missed.length).toBeGreaterThan(1);
  const doNot = `\nDo not do steps ${missed.join(', ')}: 1m2 v2 needs what they unload.\n`;
  expect(told.indexOf(doNot)).toBeGreaterThan(0);
  expect(told.indexOf(doNot)).toBeLessThan(told.indexOf('\nWhat frees most\n'));
  for (const { steps } of missingOverview.proof.misses) {
    expect(told).toContain(` Do not do step ${steps.join(', ')}.\n`);
  }
  expect(reportText(overview, piped)).not.toContain('Do not do');
  const inDoubt = missingOverview.worklist.map((list) => ({
    ...list,
    actions: list.actions.map((step) =>
      step.missed === null ? step : { ...step, missed: 'doubt' as const },
    ),
  }));
  expect(reportText({ ...missingOverview, worklist: inDoubt }, piped)).toContain(
    `steps ${missed.join(', ')} before the doubt is settled: 1m2 v2 needs what they unload, in doubt only.\n`,
  );
});

test('it ends with what it leaves to the page, and with what holds in any case', () => {
  for (const [, of] of cases) {
    expect(reportText(of, piped)).toMatch(
      /\n\n.*worklist are on the page: the same command with --format html -o FILE\.html\. Keep your full template\. Figures are estimates.*\n$/u,
    );
  }
});

test('of a machine that is too small three ways are told, what is enough first', () => {
  const [small, other] = tooSmall.machines;
  const text = (ways: OverviewMachine['ways']): string =>
    reportText({ ...tooSmall, machines: [{ ...small!, ways }, other!] }, piped);
  const told = (shown: string): readonly string[] =>
    (/\nWhat would make room on machine a\n((?:- .*\n)*)/u.exec(shown)?.[1] ?? '')
      .split('\n')
      .filter((line) => line !== '');
  const little = { kind: 'trim', instrument: 'horns', bytes: 1024, fits: false } as const;
  const own = small!.ways.map((way) => ({ ...way, fits: false }));
  expect(own.length).toBeGreaterThan(2);
  const none = text([little, ...own]);
  expect(told(none)).toHaveLength(3);
  expect(none).toContain('None of these is enough alone');
  expect(none).not.toContain('1.00 KiB less');
  const some = text([...own, { ...little, fits: true }]);
  expect(told(some)).toHaveLength(3);
  expect(told(some)[0]).toContain('1.00 KiB less, and then machine a fits');
  expect(some).toContain('Each is counted by itself');
  expect(text([])).toContain('Nothing was found that would free memory there.');
  expect(some).not.toContain('What would make room on machine b');
});

test('copies that differ have lines of their own', () => {
  const differing: Overview = {
    ...overview,
    instruments: overview.instruments.map((one) =>
      one.id !== 'horns'
        ? one
        : {
            ...one,
            copies: ['Horns 1', 'Horns 2'].map((name) => ({
              ...{ name, notes: 1, zonesKept: 1 },
              articulation: null,
            })),
            articulations: one.articulations.map((each) => ({
              ...each,
              copies: [
                { copy: 0, playable: each.playable },
                { copy: 1, playable: { state: 'gone', all: each.playable.all, stretches: [] } },
              ],
            })),
          },
    ),
  };
  const text = reportText(differing, piped);
  expect(text).toContain('\n- horns (Horns 1):\n');
  expect(text).toMatch(/\n- horns \(Horns 2\): sustain, staccato, muted: gone\.\n/u);
  expect(text).not.toContain('\n- horns:');
});

describe.each(cases)('in any width: %s', (_, of) => {
  test.each([48, 60, 80, 120])('%i', (width) => {
    for (const line of reportText(of, { ...piped, width }).split('\n')) {
      expect.soft(displayWidth(line), line).toBeLessThanOrEqual(width);
      expect.soft(line, 'blanks at its end').toBe(line.trimEnd());
    }
  });

  test('colours change nothing but the colour', () => {
    const paint = (text: string): string => `\u001b[1m${text}\u001b[22m`;
    const painted = { bold: paint, dim: paint, red: paint, yellow: paint, green: paint };
    const text = reportText(of, { ...piped, colors: { ...painted, cyan: paint }, width: 80 });
    expect(text).toContain('\u001b[1m');
    expect(text.replaceAll(/\u001b\[\d+m/gu, '')).toBe(reportText(of, { ...piped, width: 80 }));
  });
});

test.each([
  ['report-80', missingOverview, { width: 80 }],
  ['report-48-ascii', missingOverview, { width: 48, ascii: true }],
  ['report-too-small-80', tooSmall, { width: 80 }],
  ['report-whole-wide', wholeOverview, { width: null }],
  ['report-hostile-100', hostileOverview, { width: 100 }],
] as const)('%s', async (name, of, look) => {
  await expect(reportText(of, { ...piped, ...look })).toMatchFileSnapshot(`${name}.golden.txt`);
});

test('in ASCII there is nothing else', () => {
  for (const of of [overview, wholeOverview, tooSmall, large]) {
    expect(reportText(of, { ...piped, ascii: true, width: 60 })).toMatch(/^[\n\x20-\x7e]*$/u);
  }
});

describe('names that would act stay text', () => {
  const acting = [
    ...hostileNames,
    ...['# x', '- x', '1. x', '> x', '| a | b |', '**x**', '`x`', '[x](http://y.z)', '<b>x</b>'],
    ...['<!-- x', '</script><script>alert(1)</script>', '&lt;x&gt;', 'a\n\nb', '---', '\u001b[2J'],
  ].filter((name) => name.trim() !== '' && !/[.:]$/u.test(name));

  test('in a terminal', () => {
    for (const title of acting) {
      const text = reportText({ ...hostileOverview, title }, piped);
      expect(text.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
    }
    const lines = (of: Overview): number => reportText(of, piped).split('\n').length;
    expect(lines(hostileOverview)).toBe(lines(missingOverview));
  });

  test.each(acting)('as the title of Markdown: %j', async (title) => {
    const named = await parse(markdownOf({ ...missingOverview, title }));
    const plain = await parse(markdownOf(missingOverview));
    const types = (root: Node): readonly string[] =>
      everything(root)
        .map(({ type }) => type)
        .filter((type) => type !== 'text');
    expect(types(named)).toEqual(types(plain));
    const heading = all(named, 'heading')[1]!;
    const squeezed = (text: string): string => text.replaceAll(/\s/gu, '');
    if (displayWidth(printable(title)) <= 120) {
      expect(squeezed(shown(heading))).toBe(squeezed(printable(title)));
    }
  });
});
