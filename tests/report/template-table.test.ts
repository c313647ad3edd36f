import { describe, expect, test } from 'vitest';
import type { Plan, PlanInstrument, PlanPin, Reason } from '../../src/keep/plan.ts';
import { plainColors } from '../../src/report/colors.ts';
import type { Look } from '../../src/report/look.ts';
import { planTable } from '../../src/report/plan-table.ts';
import { plan } from './fixtures/plan.ts';
import { largePlan, templatePlan } from './fixtures/template-plan.ts';

const wide: Look = { colors: plainColors, ascii: false, width: null };

const linesOf = (which: Plan, look = wide): readonly string[] => planTable(which, look).split('\n');

const rowOf = (which: Plan, begins: string): string =>
  linesOf(which).find((line) => line.startsWith(`${begins} `)) ?? '';

const harpZone = templatePlan.instruments[2]!.kept[0]!;

const withMachine = (change: Partial<Plan['machines'][number]>): Plan => ({
  ...templatePlan,
  machines: templatePlan.machines.map((one, i) => (i === 0 ? { ...one, ...change } : one)),
});

const withInstrument = (change: Partial<PlanInstrument>): Plan => ({
  ...templatePlan,
  instruments: templatePlan.instruments.map((one, i) => (i === 0 ? { ...one, ...change } : one)),
});

describe('machines', () => {
  const gib = 2 ** 30;
  test.each([
    [
      gib,
      2 * gib,
      3 * gib,
      'Machine a fits: 1.00 GiB to 2.00 GiB needed, 3.00 GiB there, 1.00 GiB to spare.',
    ],
    [2 * gib, 2 * gib, 2 * gib, 'Machine a fits: 2.00 GiB needed, 2.00 GiB there, 0 B to spare.'],
    [
      gib,
      3 * gib,
      2 * gib,
      '! Machine a MAY NOT FIT: 1.00 GiB to 3.00 GiB needed, 2.00 GiB there, 2.00 GiB likely; at the most 1.00 GiB too much.',
    ],
    [
      2 * gib,
      3 * gib,
      gib,
      '! Machine a DOES NOT FIT: 2.00 GiB to 3.00 GiB needed, 1.00 GiB there, 2.00 GiB too much.',
    ],
    [gib, 2 * gib, null, 'Machine a: 1.00 GiB to 2.00 GiB needed, no memory budget given.'],
  ])('%d to %d bytes in %d', (low, high, budget, line) => {
    const bytes = { full: 4 * gib, kept: 2 * gib, low, high };
    const fits = budget === null ? null : high <= budget;
    const lines = linesOf(withMachine({ budget, bytes, fits }));
    // First in the verdict, and again below the machine's own table.
    expect(lines.indexOf(line)).toBe(1);
    expect(lines.lastIndexOf(line)).toBeGreaterThan(1);
  });

  test('without an instrument they are no part of the answer', () => {
    const lines = linesOf(templatePlan).filter((line) => line.includes('spare '));
    expect(lines).toEqual(['Machine spare has nothing to load.']);
  });

  test('their instruments: what keeps most first, then what is not needed', () => {
    const lines = linesOf(templatePlan);
    const first = lines.indexOf('Machine a (3 instruments)');
    const names = lines.slice(first + 5, first + 8).map((line) => line.split(' ')[0]);
    expect(names).toEqual(['low-strings', 'harp', 'pads']);
  });
});

test('a row says player, grain, copies, notes, zones and memory with its basis', () => {
  expect(rowOf(templatePlan, 'low-strings').split(/ {2,}/)).toEqual(
    ['low-strings', 'streamer', 'articulation', '2', '1 290', '240/480'].concat(
      // 0.9, 1.7, 1.6 to 1.8, 3.9 and 3.9 less 1.7 GiB, in MiB.
      ['921.6', '1 740.8', 'f', '1 638.4-1 843.2', '3 993.6', '2 252.8'],
    ),
  );
  expect(rowOf(templatePlan, 'celesta').split(/ {2,}/).slice(7, 9)).toEqual(['300.0', 'r']);
});

test('what nothing is sent to is to be left out; what is sent in vain is to be checked', () => {
  expect(rowOf(templatePlan, 'pads')).toContain(' not played: leave it out ');
  expect(rowOf(templatePlan, 'bells')).toContain(' its notes reach nothing: check ');
  const lines = linesOf(templatePlan);
  expect(lines).toContain('Kept whole: celesta.');
  expect(lines).toContain('Not played, to be left out: pads.');
  expect(lines).toContain('Played, but the notes reach nothing; check the routes: bells.');
});

test('kept without a note: to be safe for doubts, else by choice or for the player', () => {
  expect(rowOf(templatePlan, 'stopped')).toMatch(/ none {2}kept to be safe /u);
  const unpinned = { ...templatePlan, settings: { ...templatePlan.settings, pins: [] } };
  expect(rowOf(unpinned, 'plucked')).toMatch(/ none {2}kept unplayed /u);
});

describe('kept without a note by a pin or by the player', () => {
  const pinnedAs = (pin: Partial<PlanPin>): string => {
    const pins = [{ instrument: 'harp', articulation: null, keys: null, velocities: null, ...pin }];
    return rowOf({ ...templatePlan, settings: { ...templatePlan.settings, pins } }, 'plucked');
  };

  test('a pin of the articulation or of the whole instrument says so, another does not', () => {
    expect(pinnedAs({ articulation: 'plucked', keys: [36, 60] })).toMatch(/ none {2}pinned /u);
    expect(pinnedAs({})).toMatch(/ none {2}pinned /u);
    expect(pinnedAs({ keys: [36, 60] })).toMatch(/ kept unplayed /u);
    expect(pinnedAs({ velocities: [1, 2] })).toMatch(/ kept unplayed /u);
    expect(pinnedAs({ articulation: 'damped' })).toMatch(/ kept unplayed /u);
    expect(pinnedAs({ instrument: 'horns' })).toMatch(/ kept unplayed /u);
  });

  const keptFor = (...reasons: readonly (readonly Reason[])[]): string => {
    const instruments = templatePlan.instruments.map((one) => ({
      ...one,
      kept: reasons.map((each, zone) => ({ ...harpZone, zone, reasons: each })),
    }));
    const settings = { ...templatePlan.settings, pins: [] };
    return rowOf({ ...templatePlan, settings, instruments }, 'plucked');
  };

  test('what only the grain of the player keeps stays with the rest', () => {
    expect(keptFor(['played'], ['grain'])).toMatch(/ none {2}with the rest /u);
    expect(keptFor(['played'], ['grain'], ['order'])).toMatch(/ none {2}kept unplayed /u);
    expect(keptFor(['grain'], ['headroom'])).toMatch(/ none {2}kept unplayed /u);
  });
});

test('instruments of one definition on one machine that share are named, the others not', () => {
  const [first] = templatePlan.instruments;
  const sentences = (...changes: readonly Partial<PlanInstrument>[]): readonly string[] => {
    const instruments = changes.map((change) => ({ ...first!, ...change }));
    return linesOf({ ...templatePlan, instruments }).filter((line) =>
      line.includes('one definition'),
    );
  };
  const named = (...ids: readonly string[]) => ids.map((id) => ({ id }));
  expect(sentences(...named('fl', 'fl-solo', 'ob'))).toEqual([
    '- fl, fl-solo, ob: one definition on one machine. Their samples count in each row, and once in the totals.',
  ]);
  expect(sentences(...named('a', 'b', 'c', 'd', 'e', 'f', 'g'))[0]).toContain(
    '- a, b, c, d, e and 2 more: one definition',
  );
  const fl = { id: 'fl' };
  expect(sentences(fl)).toEqual([]);
  expect(sentences(fl, { id: 'ob', machine: 'b' })).toEqual([]);
  expect(sentences(fl, { id: 'ob', player: 'plain' })).toEqual([]);
  expect(sentences(fl, { id: 'ob', sha256: '8'.repeat(64) })).toEqual([]);
  expect(sentences(fl, { id: 'ob', shares: 'copy' })).toEqual([]);
});

test('without ranges there is no column for them', () => {
  const exact = templatePlan.instruments.map((one) => ({
    ...one,
    bytes: { ...one.bytes, low: one.bytes.kept, high: one.bytes.kept },
  }));
  const machines = templatePlan.machines.map((one) => ({
    ...one,
    bytes: { ...one.bytes, low: one.bytes.kept, high: one.bytes.kept },
  }));
  expect(planTable({ ...templatePlan, instruments: exact, machines }, wide)).not.toContain(
    'Between',
  );
});

describe('tables of instruments', () => {
  const headings = (look: Look): readonly string[] =>
    linesOf(largePlan, look).filter((line) => line.includes(' on machine '));

  test('of sixty instruments only the eight that keep the most have one', () => {
    expect(headings(wide)).toHaveLength(8);
    for (const heading of headings(wide)) expect(heading).toContain('low strings');
    expect(planTable(largePlan, wide)).toContain('Kept in part: 36. The 8 that keep the most');
  });

  test('with details all that are kept in part have one, and all names are listed', () => {
    const look = { ...wide, details: true };
    expect(headings(look)).toHaveLength(36);
    expect(planTable(largePlan, look)).not.toContain(' more.');
    expect(planTable(largePlan, look)).not.toContain('--verbose');
  });

  test('copies that load apart say how much each keeps', () => {
    expect(linesOf(templatePlan)).toContain(
      'Each copy keeps zones of its own: Hn 1: 60, Hn 2: 30.',
    );
  });
});

test('a template with one instrument is still a template', () => {
  const one = { ...plan, template: { sha256: '2'.repeat(64) } };
  expect(planTable(one, wide)).toContain('Machine default (1 instrument)');
  expect(planTable(plan, wide)).not.toContain('Machine default (');
});

test('tracks that no route takes stand in the verdict', () => {
  expect(linesOf(templatePlan)).toContain(
    '! No route takes 2 tracks: Ld 1, (no name). What 42 notes of them need is not in this plan. They were let pass on your word.',
  );
  const { settings } = templatePlan;
  const refused = { ...templatePlan, settings: { ...settings, allowUnmapped: false } };
  expect(planTable(refused, wide)).not.toContain('let pass');
  expect(planTable({ ...templatePlan, findings: [] }, wide)).not.toContain('No route');
});

describe('what was chosen', () => {
  const chosen = (which: Plan): readonly string[] => {
    const lines = linesOf(which);
    const first = lines.indexOf('What was chosen');
    return first < 0 ? [] : lines.slice(first + 1, lines.indexOf('', first));
  };

  test('nothing is nothing', () => {
    expect(chosen(plan)).toEqual([]);
  });

  test('all of it', () => {
    expect(chosen(templatePlan)).toEqual([
      '- Headroom: 2 keys, 8 steps of velocity to either side of what is played stay too; 12.0 MiB (41 zones).',
      '- Pinned, kept regardless: harp/plucked C2-C4 (36-60) velocity 1-64: 4.00 KiB (1 zone); celesta: that costs nothing.',
      '- Slack: within 60 ms a switch and a note may stand in either order.',
      '- Doubt smoothing is settled as plain for low-strings, harp, celesta.',
      '- Already audio: 3 tracks; their sounds would take 120 MiB more (12 zones).',
    ]);
  });

  test('an answer for one instrument against that for all', () => {
    const own = withInstrument({ settle: { tail: 'plain', order: 'accept' } });
    expect(chosen(own)).toContain('- Doubt tail is settled as plain for low-strings.');
    expect(chosen(own)).toContain('- Doubt order is accepted for low-strings.');
  });

  test('tracks that are audio and need nothing more', () => {
    const printed = { parts: 1, zones: 0, bytes: 0 };
    expect(chosen({ ...templatePlan, printed })).toContain(
      '- Already audio: 1 track; what its sounds need stays anyway.',
    );
  });

  test('many pins are counted', () => {
    const pin = templatePlan.settings.pins[1]!;
    const pins = Array.from({ length: 11 }, () => pin);
    const price = templatePlan.allowances.pins[1]!;
    const many = {
      ...templatePlan,
      settings: { ...templatePlan.settings, pins },
      allowances: { ...templatePlan.allowances, pins: pins.map(() => price) },
    };
    expect(chosen(many)[1]).toMatch(/celesta: that costs nothing; and 3 more\.$/u);
  });
});

describe('about the figures', () => {
  const sentences = (which: Plan): readonly string[] =>
    linesOf(which).filter((line) => /^- [cfr]: /u.test(line));

  test('each basis that occurs is explained', () => {
    expect(sentences(templatePlan).map((line) => line.slice(2, 4))).toEqual(['c:', 'f:', 'r:']);
    expect(sentences({ ...templatePlan, instruments: [] })).toEqual([]);
    expect(sentences(plan)).toEqual([]);
  });

  test('fitted figures say to how many readings, and how far off the worst is', () => {
    const fitted = (readings: number, residual: number): Plan => {
      const [first] = templatePlan.instruments as [PlanInstrument];
      const bytes = { ...first.bytes, readings, residual };
      return { ...templatePlan, instruments: [{ ...first, bytes }] };
    };
    expect(sentences(fitted(3, 12 * 2 ** 20))).toEqual([
      "- f: computed, then fitted to 3 readings of the player's display, from which it differs by 12.0 MiB at the most.",
    ]);
    expect(sentences(fitted(1, 0))).toEqual([
      "- f: computed, then fitted to 1 reading of the player's display; a single reading leaves a range.",
    ]);
  });
});
