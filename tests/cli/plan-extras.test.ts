import { expect } from 'vitest';
import { bank, cue, note, plainCue, program } from '../jobs/small-score.ts';
import { expectError, keepset } from './keepset.ts';
import { test } from './material.ts';
import { document } from './schemas.ts';

/** What `plan` says on request, by the built program. */
const cues = {
  'cues/1m2 Quay v1.mid': cue({ name: 'Keys', events: [program(0, 48), note(480, 72)] }),
  'cues/1m2 Quay v2.mid': cue({ name: 'Keys', events: [program(0, 0), note(480, 60)] }),
  'cues/1m3.mid': cue({ name: 'Keys', events: [program(0, 0), note(480, 59), note(960, 64)] }),
};

test('headroom by evidence, rare parts and versions, as JSON and as a table', async ({
  folder,
}) => {
  await folder.write({ ...cues, 'bank.sf2': bank() });
  const args = ['plan', 'cues', '-i', 'bank.sf2', '--headroom-curve', '--rare', '2'];
  const { code, stdout } = await keepset([...args, '--format', 'json'], { cwd: folder.path });
  expect(code).toBe(0);
  const plan = document(stdout, 'plan@1');
  expect(plan).toMatchObject({
    // Strings high: 800 points of 2 bytes.
    versions: [{ cue: '1m2', versions: ['1m2 v1', '1m2 v2'], zones: 1, bytes: 1_600 }],
    headroomCurve: {
      cues: 2,
      revisions: 1,
      // 1m3 needs what lies a semitone under 1m2; strings play in no other cue than 1m2.
      steps: [
        { headroom: { keys: 0, velocity: 0, controller: 0 }, cuesServed: 0, revisionsServed: 1 },
        { headroom: { keys: 1, velocity: 0, controller: 0 }, cuesServed: 1, bytes: 0 },
        { headroom: { keys: 12, velocity: 32, controller: 32 }, missed: ['1m2'] },
      ],
    },
    rare: {
      fewerThan: 2,
      units: [
        { articulations: [1], notes: 1, bytes: 1_600 },
        { articulations: [0], notes: 1, bytes: 200 },
      ],
      bytes: 1_800,
    },
  });
  const table = await keepset(args, { cwd: folder.path });
  expect(table.code).toBe(0);
  expect(table.stdout).toContain('1m2 comes in v1 and v2: the older one keeps 1 zone, 1.56 KiB.');
  expect(table.stdout).toContain('Rare: 2 parts that fewer than 2 notes reach');
  expect(table.stdout).toContain('Headroom of 1 semitone would have served 1 of 2 cues');
  expect(table.stdout).toContain('--headroom keys=1, or');
  // Without the flags the rest of the plan is the same, byte for byte.
  const bare = await keepset(['plan', 'cues', '-i', 'bank.sf2', '--format', 'json'], {
    cwd: folder.path,
  });
  const { rare, headroomCurve, ...rest } = plan;
  expect(document(bare.stdout, 'plan@1')).toEqual({ ...rest, rare: null, headroomCurve: null });
  expect([rare, headroomCurve]).not.toContain(null);
});

test.each([
  ['--rare', '0'],
  ['--rare', '-1'],
  ['--rare', 'few'],
  ['--headroom', 'keys=-1'],
  ['--headroom', 'keys=128'],
])('%s %s is refused', async (flag, value) => {
  const result = await keepset(['plan', 'cues', `${flag}=${value}`]);
  expect(result.code).toBe(2);
  expectError(result, 'usage');
});

test('one cue alone has no curve, and says so', async ({ score }) => {
  await score.write({ 'cues/1m1.mid': plainCue() });
  const args = ['plan', 'cues', '-i', 'bank.sf2', '--headroom-curve'];
  const { code, stdout } = await keepset(args, { cwd: score.path });
  expect(code).toBe(0);
  expect(stdout).toContain('Headroom by evidence: there is no other cue');
});
