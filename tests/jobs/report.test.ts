import { describe, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { check } from '../../src/jobs/check.ts';
import { plan } from '../../src/jobs/plan.ts';
import { report, type ReportOptions } from '../../src/jobs/report.ts';
import type { Overview } from '../../src/overview/overview.ts';
import { toJson } from '../../src/report/json.ts';
import { withMessages } from '../../src/report/messages.ts';
import { sha256 } from '../../src/files/digest.ts';
import { smallRig } from '../overview/small-rig.ts';

type FilesByPath = Readonly<Record<string, Uint8Array | string>>;

/** As it is written. */
const text = (value: Overview): string => toJson(withMessages(value));

const withKeep = async (
  there: FilesByPath,
  options: ReportOptions = {},
): Promise<{ readonly files: MemoryFiles; readonly keep: string }> => {
  const keep = toJson(withMessages(await plan({ ...options, files: new MemoryFiles(there) })));
  return { files: new MemoryFiles({ ...there, 'keep.json': keep }), keep };
};

const asOwn = (overview: Overview): string =>
  text({ ...overview, keep: { ...overview.keep, path: null } });

const hard = { timeout: 120_000 };

describe('the demo', () => {
  const demo = Object.fromEntries(demoFiles().map(({ path, bytes }) => [path, bytes]));

  test('is the same from its cues and from its keep file, byte for byte', hard, async () => {
    const { files, keep } = await withKeep(demo);
    const [own, kept] = [await report({ files }), await report({ files, keep: 'keep.json' })];
    expect(own.keep).toEqual({
      path: null,
      sha256: sha256(new TextEncoder().encode(keep)),
      refused: null,
    });
    expect(kept.keep).toEqual({ path: 'keep.json', sha256: own.keep.sha256, refused: null });
    expect(asOwn(kept)).toBe(text(own));
    expect([own.proof.verdict, own.proof.of]).toEqual(['proved', 'plan']);
    expect([own.machines.length, own.instruments.length, own.cues.length]).toEqual([2, 24, 9]);
  });

  test('misses something in its revisions, as a check says', hard, async () => {
    const { files } = await withKeep(demo);
    const named = { files, keep: 'keep.json', cues: ['revisions'] };
    const [overview, checked] = [await report(named), await check(named)];
    expect(overview.proof.of).toBe('named');
    expect(overview.proof.verdict).toBe('missing');
    expect(overview.proof.total).toEqual(checked.total);
    expect(overview.proof.cues).toEqual(checked.proof.cues);
    expect(
      overview.proof.misses.reduce(
        (sum, { zones, doubtfulZones }) => sum + zones + doubtfulZones,
        0,
      ),
    ).toBe(checked.misses.length);
  });
});

test.each<[string, ReportOptions]>([
  ['room', { headroom: { keys: 2, velocity: 8 } }],
  ['an answer', { settle: { 'start-state': 'plain' } }],
  ['a pin', { pins: ['timpani'] }],
  ['a cue left out', { without: ['1m2'] }],
  ['some cues', { cues: ['cues/1m1.mid'] }],
])('with %s both ways agree', async (_, options) => {
  const { files } = await withKeep(smallRig, options);
  const own = await report({ ...options, files });
  expect(asOwn(await report({ files, keep: 'keep.json' }))).toBe(text(own));
  expect(text(own)).not.toBe(text(await report({ files })));
});

test('one instrument that plays all needs no template', async () => {
  const single = { instrument: 'tables/horns.csv', middleC: 4 };
  const { files } = await withKeep(smallRig, { ...single, cues: ['cues'] });
  const own = await report({ ...single, files, cues: ['cues'] });
  expect(own.template).toBeNull();
  expect(own.instruments.map(({ id }) => id)).toEqual(['horns']);
  expect(asOwn(await report({ files, keep: 'keep.json', middleC: 4 }))).toBe(text(own));
});

test('tells the octave and the title that it was given', async () => {
  const files = new MemoryFiles(smallRig);
  const [usual, given] = [await report({ files }), await report({ files, middleC: 3, title: 'T' })];
  expect([usual.middleC, usual.title, given.middleC, given.title]).toEqual([4, null, 3, 'T']);
});

describe('what is risky', () => {
  const kinds = async (options: ReportOptions, there: FilesByPath = smallRig) =>
    (await report({ files: new MemoryFiles(there), ...options })).risks;

  test('nothing but that there is no room', async () => {
    expect(await kinds({})).toEqual([{ kind: 'no-headroom' }]);
    expect(await kinds({ headroom: { keys: 1 } })).toEqual([]);
  });

  test('a doubt that was settled, and a cue that was left out', async () => {
    expect(await kinds({ settle: { 'start-state': 'plain' }, without: ['1m1'] })).toEqual([
      {
        kind: 'settled',
        doubt: 'start-state',
        instruments: ['horns', 'strings', 'flute', 'timpani'],
      },
      { kind: 'left-out', cues: ['1m1'] },
      // The flute of 1m2 plays before it has chosen, and what it might have chosen is gone.
      { kind: 'silent-notes', instruments: [2] },
      { kind: 'no-headroom' },
    ]);
  });

  test('a doubt that was accepted is none', async () => {
    expect(await kinds({ settle: { 'start-state': 'accept' } })).toEqual([{ kind: 'no-headroom' }]);
  });

  const edited = (from: string, to: string): FilesByPath => {
    const before = smallRig['keepset.yaml'] as string;
    expect(before).toContain(from);
    return { ...smallRig, 'keepset.yaml': before.replace(from, to) };
  };

  test('a machine that is nearly full, or too small', async () => {
    // Machine b needs 1 240 800 bytes: a twentieth of 1 300 000 is 65 000, and 59 200 are left.
    expect(await kinds({}, edited('memory: 12 MB', 'memory: 1.3 MB'))).toContainEqual({
      kind: 'tight',
      machine: 1,
      bytes: 59_200,
    });
    expect(await kinds({}, edited('memory: 12 MB', 'memory: 1.31 MB'))).toEqual([
      { kind: 'no-headroom' },
    ]);
    expect(await kinds({}, edited('memory: 12 MB', 'memory: 1.24 MB'))).toContainEqual({
      kind: 'over',
      machine: 1,
      bytes: 800,
    });
  });

  test('tracks that no rule takes', async () => {
    const there = edited("  - { track: 'Strings*', instrument: strings }\n", '');
    expect(await kinds({ allowUnmapped: true }, there)).toContainEqual({
      kind: 'unmapped',
      parts: 1,
    });
  });

  test('a cue that was cut off', async () => {
    const whole = smallRig['cues/1m2.mid'] as Uint8Array;
    const there = { ...smallRig, 'cues/1m2.mid': whole.slice(0, whole.length - 12) };
    const risks = await kinds({}, there);
    expect(risks).toContainEqual({ kind: 'damaged', cues: ['1m2'] });
    const { proof } = await report({ files: new MemoryFiles(there) });
    expect(proof.verdict).toBe('not-proved');
  });
});

describe('a machine that does not hold the reel', () => {
  test('has groups, by cue and machine', async () => {
    const before = smallRig['keepset.yaml'] as string;
    const there = {
      ...smallRig,
      'keepset.yaml': before.replace('memory: 12 MB', 'memory: 900 kB'),
    };
    const { groups, cues, machines } = await report({ files: new MemoryFiles(there) });
    // 1m1 asks for the low long flute, 1m2 for more of it: 540 200 and 740 600 of 1 240 800 bytes.
    expect(cues.map((cue) => cue.machines[1]!.bytes)).toEqual([540_200, 740_600]);
    expect(groups!.groups.map((group) => group.cues)).toEqual([[0], [1]]);
    expect(groups!.alone).toEqual([]);
    expect(machines[1]!.fits).toBe(false);
  });
});

describe('a keep file', async () => {
  const { keep } = await withKeep(smallRig);
  const files = (change: FilesByPath = {}, without: readonly string[] = []): MemoryFiles =>
    new MemoryFiles(
      Object.fromEntries(
        Object.entries({ ...smallRig, 'keep.json': keep, ...change }).filter(
          ([path]) => !without.includes(path),
        ),
      ),
    );
  const template = smallRig['keepset.yaml'] as string;

  test.each([
    ['is gone', files({}, ['cues/1m1.mid']), 'report-cue-gone'],
    ['has changed', files({ 'cues/1m1.mid': smallRig['cues/1m2.mid']! }), 'report-cue-changed'],
  ])('of which a cue %s says so, whatever cues are named', async (_, there, code) => {
    for (const cues of [[], ['later']]) {
      await expect(report({ files: there, keep: 'keep.json', cues })).rejects.toThrow(code);
    }
  });

  test('of another instrument is refused', async () => {
    const table = `${smallRig['tables/horns.csv'] as string}muted,D0,C5-B5,1-127,hn-top.wav,1000\n`;
    const there = files({ 'tables/horns.csv': table });
    await expect(report({ files: there, keep: 'keep.json' })).rejects.toThrow(
      'report-instrument-changed',
    );
  });

  test.each([
    ['machine', 'machine: b }\n  timpani', 'machine: a }\n  timpani'],
    ['budget', 'memory: 12 MB', 'memory: 13 MB'],
    ['grain', 'unloads: layer', 'unloads: articulation'],
  ])('with another %s in the template is refused', async (_, from, to) => {
    expect(template).toContain(from);
    const there = files({ 'keepset.yaml': template.replace(from, to) });
    await expect(report({ files: there, keep: 'keep.json' })).rejects.toThrow(
      'report-template-changed',
    );
  });

  test('with other routes in the template is not proved', async () => {
    const there = files({ 'keepset.yaml': `# moved\n${template}` });
    for (const cues of [[], ['cues']]) {
      const named = { files: there, keep: 'keep.json', cues };
      const { proof } = await report(named);
      expect([proof.verdict, proof.open]).toEqual(['not-proved', ['check-template-changed']]);
      expect((await check(named)).verdict).toBe('not-proved');
    }
  });

  test.each<[string, ReportOptions]>([
    ['--settle', { settle: { order: 'plain' } }],
    ['--pin', { pins: ['horns'] }],
    ['--headroom', { headroom: { keys: 1 } }],
    ['--usage', { usage: ['usage.json'] }],
    ['--allow-unmapped', { allowUnmapped: true }],
    ['--newest', { newest: true }],
    ['--without', { without: ['1m1'] }],
  ])('says what was chosen, so %s is refused', async (flag, options) => {
    const asked = report({ files: files(), keep: 'keep.json', ...options });
    await expect(asked).rejects.toThrow(flag);
  });

  test('takes choices about the cues that are named', async () => {
    const named = { files: files(), keep: 'keep.json', cues: ['cues', 'later'] };
    const { proof } = await report({ ...named, newest: true });
    expect(proof.cues.map(({ id }) => id)).toEqual(['1m1', '1m2 v2']);
    expect(proof.leftOut).toEqual(['1m2']);
  });

  test('with findings that have no words is read without them', async () => {
    const value = JSON.parse(keep) as { findings: object[] };
    const [first] = value.findings;
    const strange = [{ ...first, code: 'of-a-later-version' }];
    const there = files({
      'keep.json': JSON.stringify({ ...value, findings: [...value.findings, ...strange] }),
    });
    const overview = await report({ files: there, keep: 'keep.json' });
    const codes = overview.findings.map(({ code }) => code as string);
    expect(codes).not.toContain('of-a-later-version');
    expect(() => text(overview)).not.toThrow();
  });
});
