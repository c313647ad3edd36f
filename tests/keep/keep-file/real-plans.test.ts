/** Every keep file that keepset writes is read again as it was. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { plan, type PlanOptions } from '../../../src/jobs/plan.ts';
import { readKeepFile } from '../../../src/keep/keep-file/read-keep-file.ts';
import type { Plan } from '../../../src/keep/plan.ts';
import { randomReel } from '../../formats/random-cue.ts';
import { randomModel } from '../../formats/random-model.ts';
import { headroom, sfzStyle, tableStyle } from '../../formats/styles.ts';
import { writeSfz } from '../../formats/write-sfz.ts';
import { writeSoundFont } from '../../formats/write-soundfont.ts';
import { writeTable } from '../../formats/write-table.ts';
import { bank, cue, cutCue, doubtfulCue, note, plainCue, program } from '../../jobs/small-score.ts';
import { keepFileText } from './places.ts';

const expectAccepted = (made: Plan): void => {
  const text = keepFileText(made);
  expect(readKeepFile(new TextEncoder().encode(text), 'keep.json')).toEqual(JSON.parse(text));
};

describe('the small score', () => {
  const planned = (cues: Readonly<Record<string, Uint8Array>>, options: PlanOptions = {}) =>
    plan({
      cues: ['cues'],
      instrument: 'bank.sf2',
      files: new MemoryFiles({ 'bank.sf2': bank(), ...cues }),
      ...options,
    });

  test.each<[string, Readonly<Record<string, Uint8Array>>, PlanOptions]>([
    ['plain', { 'cues/1m1.mid': plainCue() }, {}],
    ['a doubt', { 'cues/1m1.mid': doubtfulCue(), 'cues/1m2.mid': plainCue() }, {}],
    ['a doubt answered', { 'cues/1m1.mid': doubtfulCue() }, { settle: { order: 'plain' } }],
    ['a doubt accepted', { 'cues/1m1.mid': doubtfulCue() }, { settle: { order: 'accept' } }],
    ['a damaged cue', { 'cues/1m1.mid': cutCue() }, {}],
    ['one that is none', { 'cues/1m1.mid': Uint8Array.of(1), 'cues/1m2.mid': plainCue() }, {}],
    ['one preset', { 'cues/1m1.mid': plainCue() }, { instrument: 'bank.sf2#0:48' }],
    ['no notes', { 'cues/1m1.mid': cue({ name: 'Keys', events: [program(0, 0)] }) }, {}],
    [
      'versions, rare, headroom',
      {
        'cues/1m1 v1.mid': plainCue(),
        'cues/1m1 v2.mid': cue({ name: 'Keys', events: [program(0, 48), note(0, 40)] }),
        'cues/1m2.mid': plainCue(),
      },
      { rare: 5, headroomCurve: true, pins: ['bank'] },
    ],
  ])('%s', async (_what, cues, options) => {
    expectAccepted(await planned(cues, options));
  });
});

/** Two instruments on one machine, of one definition or of two, that may share; one or both measured. */
const template = fc
  .record({
    shares: fc.constantFrom('machine', 'copy'),
    unloads: fc.constantFrom('sample', 'layer', 'articulation', 'instrument'),
    loads: fc.constantFrom('whole', 'streamed, head: 9 ms'),
    per: fc.constantFrom('', ', per-zone: 100 B, per-copy: 1 KiB'),
    slack: fc.constantFrom('0 ms', '20 ms'),
    measured: fc.constantFrom(
      '',
      ', measured: { full: 40 KiB, empty: 2 KiB }',
      ', measured: { full: 3 KiB }',
    ),
    other: fc.constantFrom('zones: one.csv, middle-c: C4', 'file: one.sfz', 'file: one.sf2'),
    settle: fc.constantFrom('{}', '{ engine: plain, order: accept }', '{ start-state: plain }'),
    pins: fc.constantFrom('[]', '[ { instrument: two } ]'),
    printed: fc.boolean(),
    budget: fc.constantFrom('1 GiB', '8 KiB'),
  })
  .map(
    (one) => `
cues: cues/*.mid
machines: { a: { memory: ${one.budget} } }
players: { p: { loads: ${one.loads}, shares: ${one.shares}, unloads: ${one.unloads}${one.per} } }
instruments:
  one: { zones: one.csv, middle-c: C4${one.measured} }
  two: { ${one.other} }
routes:
  - { track: 'Track 1', instrument: one }
  - { track: 'Track 2', instrument: two${one.printed ? ', printed: true' : ''} }
slack: ${one.slack}
settle: ${one.settle}
pins: ${one.pins}
`,
  );

test('random instruments and reels', async () => {
  const models = randomModel({ articulations: true, fades: true, releases: true });
  const reels = randomReel({
    ...{ switches: true, controllers: true, modes: true, resets: true },
    moment: 120,
  });
  const styles = fc.record({ sfz: sfzStyle, table: tableStyle });
  const plainModels = randomModel({ articulations: false, fades: false, releases: false });
  await fc.assert(
    fc.asyncProperty(
      ...([models, plainModels, reels, styles, template, headroom, fc.boolean()] as const),
      async (model, plainModel, reel, style, template, headroom, asked) => {
        const files = new MemoryFiles({
          ...reel,
          ...writeSfz(model, 'one.sfz', style.sfz),
          'one.csv': writeTable(model, style.table),
          'one.sf2': writeSoundFont(plainModel, { split: 60, globals: true }).bytes,
          'keepset.yaml': template,
        });
        const more = asked ? { rare: 4, headroomCurve: true } : {};
        expectAccepted(await plan({ template: 'keepset.yaml', headroom, files, ...more }));
      },
    ),
    { numRuns: 60 },
  );
}, 120_000);
