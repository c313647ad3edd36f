import { describe, expect, test } from 'vitest';
import type { HeadroomStep, Plan, RareUnit, Witness } from '../../src/keep/plan.ts';
import { plainColors } from '../../src/report/colors.ts';
import { headroomCurveTable } from '../../src/report/headroom-curve-table.ts';
import type { Look } from '../../src/report/look.ts';
import { planTable } from '../../src/report/plan-table.ts';
import { rareTable } from '../../src/report/rare-table.ts';
import { displayWidth } from '../../src/report/text-width.ts';
import { versionsSection } from '../../src/report/versions-section.ts';
import { hostileNames } from './fixtures/names.ts';
import { plan } from './fixtures/plan.ts';

/** What a plan says on request: headroom by evidence, rare parts, versions. */
const wide: Look = { colors: plainColors, ascii: false, width: null };
const mib = (count: number): number => count * 2 ** 20;

const step = (
  keys: number,
  room: number,
  [cuesServed, revisionsServed, zones, bytes]: readonly [number, number, number, number],
  missed: readonly string[],
): HeadroomStep => ({
  headroom: { keys, velocity: room, controller: room },
  ...{ cuesServed, revisionsServed, zones, bytes, missed },
});

const none = step(0, 0, [30, 1, 0, 0], ['1m2', '2m3 v2', '4m1']);
const some = step(2, 16, [38, 1, 214, 1_181_116_006], ['4m1']);
const most = step(12, 32, [38, 1, 2_000, mib(9_000)], ['4m1']);

const curved = (...steps: readonly HeadroomStep[]): Plan => ({
  ...plan,
  cues: plan.cues.map((cue) => ({ ...cue, state: 'read' })),
  headroomCurve: { cues: 40, revisions: 1, steps },
});

describe('headroom by evidence', () => {
  test('a sentence, the steps, the flag to copy and what was missed', () => {
    expect(headroomCurveTable(curved(none, some, most), wide).join('\n')).toMatchInlineSnapshot(`
      "Headroom of 2 semitones and 16 steps of velocity and controllers would have served 38 of 40 cues and 1 of 1 revision; it costs 1.10 GiB. Without any: 30 of 40 cues and 1 of 1 revision.

                                                               Cues  Revisions   More    Costs
      Headroom                                               served     served  zones      MiB
      ─────────────────────────────────────────────────────  ──────  ─────────  ─────  ───────
      no headroom                                             30/40        1/1      0        0
      2 semitones and 16 steps of velocity and controllers    38/40        1/1    214  1 126.4
      12 semitones and 32 steps of velocity and controllers   38/40        1/1  2 000  9 000.0
      To have it: --headroom keys=2,velocity=16,controller=16, or headroom: in the template.
      Not served by 2 semitones and 16 steps of velocity and controllers: 4m1.
      No headroom replaces what no other cue asks for: an instrument, a copy, an articulation.
      Each cue was left out in turn and looked up in a plan of the others, as if it had come later; each revision in a plan with the version before it."
    `);
  });

  test('none is needed', () => {
    const served = step(0, 0, [40, 1, 0, 0], []);
    const lines = headroomCurveTable(curved(served), wide);
    expect(lines[0]).toBe(
      'Without headroom a plan of the others would have served 40 of 40 cues and 1 of 1 revision.',
    );
    expect(lines.join('\n')).not.toContain('--headroom');
  });

  test('none helps', () => {
    const [first] = headroomCurveTable(curved(none, { ...most, cuesServed: 30 }), wide);
    expect(first).toContain('and no headroom that was tried serves more');
  });

  test('it costs nothing, of velocity alone, and cues could not be read', () => {
    const free = step(0, 8, [40, 1, 0, 0], []);
    const damaged = curved(none, free);
    const lines = headroomCurveTable(
      { ...damaged, cues: damaged.cues.map((cue) => ({ ...cue, state: 'damaged' })) },
      wide,
    );
    expect(lines[0]).toContain('Headroom of 8 steps of velocity and controllers would have served');
    expect(lines[0]).toContain('it costs nothing here');
    expect(lines.join('\n')).toContain('--headroom velocity=8,controller=8, or');
    expect(lines.join('\n')).toContain('What could not be read was left aside');
  });

  test('one cue alone', () => {
    const alone = step(0, 0, [0, 0, 0, 0], []);
    const lines = headroomCurveTable(
      { ...plan, headroomCurve: { cues: 0, revisions: 0, steps: [alone] } },
      wide,
    );
    expect(lines).toHaveLength(1);
    expect(lines[0]).toContain('no other cue');
  });
});

const place = (bar: number, over: Partial<Witness> = {}): Witness => ({
  ...{ cue: '1m2', track: 3, trackName: 'Vc 1', tick: 0, bar, beat: 2, seconds: 61 },
  ...{ timecode: null, key: 40, velocity: 33 },
  ...over,
});

const unit = (zone: number, over: Partial<RareUnit> = {}): RareUnit => ({
  ...{ instrument: plan.instruments[0]!.id, machine: 'a', copy: null, articulations: [1] },
  ...{ zones: [zone], samples: 1, notes: 1, cues: { '1m2': 1 } },
  ...{ witnesses: [place(zone)], bytes: mib(zone) },
  ...over,
});

const listed = (...units: readonly RareUnit[]): Plan => ({
  ...plan,
  rare: { fewerThan: 4, units, bytes: mib(70) },
});

describe('rare parts', () => {
  const session = listed(
    unit(40),
    unit(20, { copy: 'Vc 1', notes: 5, witnesses: [place(7), place(9), place(11)] }),
    // The same notes: round robins.
    unit(5, { witnesses: [place(30)] }),
    unit(4, { witnesses: [place(30)] }),
    unit(0, { witnesses: [place(31, { key: null, velocity: null })] }),
  );

  test('the dearest first, with their places', () => {
    expect(rareTable(session, wide).join('\n')).toMatchInlineSnapshot(`
      "Rare: 5 parts that fewer than 4 notes reach; without them 70.0 MiB less.

                                                                                                                  Frees
      Instrument      Articulation            Zones  Notes  Where                                                   MiB
      ──────────────  ──────────────────────  ─────  ─────  ────────────────────────────────────────────────────  ─────
      harbour         0:48 Slow Tide Strings      1      1  1m2 bar 40 beat 2 (1:01), Vc 1, E2 (40), velocity 33   40.0
      harbour (Vc 1)  0:48 Slow Tide Strings      1      5  1m2 bar 7 beat 2 (1:01), Vc 1, E2 (40), velocity 33    20.0
                                                            1m2 bar 9 beat 2 (1:01), Vc 1, E2 (40), velocity 33
                                                            1m2 bar 11 beat 2 (1:01), Vc 1, E2 (40), velocity 33
                                                            and 2 more
      harbour         0:48 Slow Tide Strings      2      1  1m2 bar 30 beat 2 (1:01), Vc 1, E2 (40), velocity 33    9.0
      harbour         0:48 Slow Tide Strings      1      1  1m2 bar 31 beat 2 (1:01), Vc 1, a controller              0
      Nothing of this is dropped: decide for each. What has to stay for good: pin it (--pin "harbour/0:48 Slow Tide Strings", or pins: in the template). What may go: print those bars as audio and mark the track printed, or change the notes, and plan again.
      Each figure is what goes if that part alone does; parts may share samples."
    `);
  });

  test('none', () => {
    expect(rareTable(listed(), wide)).toEqual([
      'Rare: nothing that could go by itself is reached by fewer than 4 notes.',
    ]);
  });

  test('the rest is summed up, and listed where details are asked for', () => {
    const many = listed(...Array.from({ length: 20 }, (_, i) => unit(100 - i)));
    const text = rareTable(many, wide).join('\n');
    expect(text).toContain('bar 89 beat 2');
    expect(text).not.toContain('bar 88 beat 2');
    expect(text).toContain('And 8 more');
    expect(rareTable(many, { ...wide, details: true }).join('\n')).toContain('bar 81 beat 2');
  });
});

describe('versions', () => {
  const of = (versions: readonly string[], zones: number, bytes: number): readonly string[] =>
    versionsSection({ ...plan, versions: [{ cue: '1m2', versions, zones, bytes }] }, wide);

  test.each([
    [
      ['1m2 v3', '1m2 v4'],
      37,
      '- 1m2 comes in v3 and v4: the older one keeps 37 zones, 12.0 MiB. --newest lets them go.',
    ],
    [
      ['1m2', '1m2 v4'],
      1,
      '- 1m2 comes without a version and in v4: the older one keeps 1 zone, 12.0 MiB. --newest lets it go.',
    ],
    [
      ['1m2', '1m2 v3', '1m2 v4'],
      37,
      '- 1m2 comes without a version and in v3 and v4: the older ones keep 37 zones, 12.0 MiB. --newest lets them go.',
    ],
  ])('%j', (versions, zones, expected) => {
    expect(of(versions, zones, mib(12))).toEqual(['Versions', expected]);
  });

  test('that keep nothing', () => {
    expect(of(['1m2 v1', '1m2 v2', '1m2 v3'], 0, 0)[1]).toBe(
      '- 1m2 comes in v1, v2 and v3: the older ones keep nothing that the reel does not need anyway.',
    );
  });
});

describe('in the table', () => {
  const whole: Plan = {
    ...curved(none, some, most),
    ...{ rare: listed(unit(40), unit(20, { copy: 'Vc 1' })).rare },
    versions: [{ cue: '1m2', versions: ['1m2 v3', '1m2 v4'], zones: 3, bytes: 12 }],
  };

  test('nothing of it where nobody asked', () => {
    const text = planTable(plan, wide);
    for (const word of ['Versions', 'Headroom of', 'Rare:']) {
      expect(text).not.toContain(word);
      expect(planTable(whole, wide)).toContain(word);
    }
  });

  test.each([60, 80, 100])('lines fit into %i columns, whatever names hold', (width) => {
    for (const name of ['Vc 1', ...hostileNames]) {
      const hostile: Plan = {
        ...whole,
        instruments: plan.instruments.map((one) => ({ ...one, id: name })),
        versions: [{ cue: name, versions: [`${name} v3`, `${name} v4`], zones: 3, bytes: 12 }],
        headroomCurve: {
          ...{ cues: 40, revisions: 1 },
          steps: whole.headroomCurve!.steps.map((one) => ({ ...one, missed: [name, name] })),
        },
        rare: {
          ...{ fewerThan: 2, bytes: mib(40) },
          units: [
            unit(40, {
              ...{ instrument: name, copy: name },
              witnesses: [place(3, { cue: name, trackName: name })],
            }),
          ],
        },
      };
      const look = { ...wide, ascii: width === 60, width };
      for (const lines of [
        versionsSection(hostile, look),
        headroomCurveTable(hostile, look),
        rareTable(hostile, look),
      ]) {
        for (const line of lines.join('\n').split('\n')) {
          expect(displayWidth(line), line).toBeLessThanOrEqual(width);
          expect(line).not.toMatch(/\p{Cc}/u);
        }
      }
    }
  });
});
