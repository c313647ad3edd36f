import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan, type PlanOptions } from '../../src/jobs/plan.ts';
import type { Plan } from '../../src/keep/plan.ts';
import { cueBytes, type CueTrack } from './midi-cue.ts';

/** Versions and completeness, from files to the plan. */
const table = `key,keys,bytes
low,0-59,1000
mid,60-71,2000
high,72-127,4000
`;

const template = (more = ''): string => `
cues: cues/*.mid
instruments: { band: { zones: band.csv, middle-c: C4 } }
routes: [ { track: "*", instrument: band } ]
${more}`;

const track = (name: string, ...keys: readonly number[]): CueTrack => ({
  name,
  notes: keys.map((key, i) => ({ tick: 480 * i, length: 240, key, velocity: 80 })),
});

type Cues = Readonly<Record<string, readonly CueTrack[]>>;

const planned = (cues: Cues, options: PlanOptions = {}, more = ''): Promise<Plan> => {
  const files = Object.entries(cues).map(
    ([name, tracks]) => [`cues/${name}.mid`, cueBytes(tracks)] as const,
  );
  return plan({
    template: 'keepset.yaml',
    files: new MemoryFiles({
      'keepset.yaml': template(more),
      'band.csv': table,
      ...Object.fromEntries(files),
    }),
    ...options,
  });
};

const keys = ({ instruments }: Plan) => instruments[0]!.kept.map(({ key }) => key);
const told = ({ findings }: Plan, code: string) => findings.filter((one) => one.code === code);

describe('versions', () => {
  const cues: Cues = {
    '1m1': [track('Vln', 60)],
    '1m2 v1': [track('Vln', 40)],
    '1m2 Harbour v2': [track('Vln', 60)],
    '1m2 Harbour v2 winds': [track('Ob', 76)],
  };

  test('all of them count, and the hint names the way out', async () => {
    const made = await planned(cues);
    expect(keys(made)).toEqual(['low', 'mid', 'high']);
    expect(told(made, 'cue-versions')).toMatchObject([
      { args: { cue: '1m2', versions: ['1m2 v1', '1m2 v2'] } },
    ]);
    expect(told(made, 'cue-versions-left')).toEqual([]);
  });

  test('the newest alone, all of its files', async () => {
    const made = await planned(cues, { newest: true });
    expect(keys(made)).toEqual(['mid', 'high']);
    expect(made.settings.newest).toBe(true);
    expect(made.cues.map(({ id, files }) => [id, files.length])).toEqual([
      ['1m1', 1],
      ['1m2 v2', 2],
    ]);
    expect(told(made, 'cue-versions')).toEqual([]);
    expect(told(made, 'cue-versions-left')).toEqual([
      {
        ...{ code: 'cue-versions-left', severity: 'note', file: null, at: null },
        args: { cue: '1m2', newest: '1m2 v2', older: ['1m2 v1'] },
      },
    ]);
  });

  test('the newest of those that are not left out', async () => {
    const made = await planned(cues, { newest: true, without: ['1m2 v2'] });
    expect(made.cues.map(({ id }) => id)).toEqual(['1m1', '1m2 v1']);
    expect(told(made, 'cue-versions-left')).toEqual([]);
  });

  test('an older version that can not be read stops nothing', async () => {
    const files = new MemoryFiles({
      'keepset.yaml': template(),
      'band.csv': table,
      'cues/1m1 v1.mid': 'no cue at all',
      'cues/1m1 v2.mid': cueBytes([track('Vln', 60)]),
    });
    const made = await plan({ template: 'keepset.yaml', files, newest: true });
    expect(made.cues.map(({ id, state }) => [id, state])).toEqual([['1m1 v2', 'read']]);
  });

  test('a reel may name an older version all the same', async () => {
    const made = await planned(cues, { newest: true }, 'reel: [1m2 v1, 1m2 v2, 1m1]');
    expect(made.cues.map(({ id }) => id)).toEqual(['1m2 v2', '1m1']);
  });
});

describe('a revision that lacks a track', () => {
  const cues: Cues = {
    '1m2 v1': [track('Vln', 60), track('Hn', 48)],
    '1m2 v2': [track('Vln', 60)],
  };

  test('is told of where only the newest counts, too', async () => {
    const made = await planned(cues, { newest: true });
    expect(made.cues.map(({ id }) => id)).toEqual(['1m2 v2']);
    expect(told(made, 'cue-looks-partial')).toMatchObject([
      { args: { cue: '1m2 v2', reason: 'tracks-of-version', tracks: ['Hn'] } },
    ]);
  });

  test('is told of', async () => {
    expect(told(await planned(cues), 'cue-looks-partial')).toMatchObject([
      {
        severity: 'warning',
        args: { cue: '1m2 v2', reason: 'tracks-of-version', tracks: ['Hn'], missing: 1 },
      },
    ]);
  });

  test('is whole by the word of the user, which is recorded', async () => {
    const made = await planned(cues, { acceptPartial: ['1m2 v2'] });
    expect(told(made, 'cue-looks-partial')).toEqual([]);
    expect(made.settings.acceptPartial).toEqual(['1m2 v2']);
  });

  test('a name that is no cue is refused', async () => {
    await expect(planned(cues, { acceptPartial: ['1m2'] })).rejects.toMatchObject({
      name: 'UsageError',
      message: 'No cue is called "1m2".',
      hint: 'The cues are 1m2 v1, 1m2 v2.',
    });
  });
});
