import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { describe, expect } from 'vitest';
import { bank, cue, note, program as programChange } from '../jobs/small-score.ts';
import { expectError, program, runCommand, spawnKeepset } from './keepset.ts';
import { test, type Folder } from './material.ts';
import { document } from './schemas.ts';

/** What a pipe holds on Linux before its reader takes something (pipe(7)): 64 KiB. */
const pipe = 65_536;

/** A cue whose results, as JSON or as a table, are larger than a pipe. */
const bigCue = cue(
  ...Array.from({ length: 1000 }, (_, i) => ({
    name: `Part ${i}`,
    events: [programChange(0, 0), note(480, 64), note(960, 48)],
  })),
);

const writeBigScore = (folder: Folder): Promise<void> =>
  folder.write({ 'big.mid': bigCue, 'bank.sf2': bank() });

/** Runs `keepset ARGS` inside a line of shell, where `$K` stands for the program. */
const shell = (line: string, cwd: string) =>
  runCommand('sh', ['-c', line.replaceAll('$K', `'${process.execPath}' '${program}'`)], { cwd });

describe('a large result', () => {
  test('arrives whole through a pipe', async ({ folder }) => {
    await writeBigScore(folder);
    const { code, stdout } = await spawnKeepset(['usage', 'big.mid', '--format', 'json'], {
      cwd: folder.path,
    });
    expect(code).toBe(0);
    expect(stdout.length).toBeGreaterThan(2 * pipe);
    expect(document(stdout, 'usage@1').cues[0]?.parts).toHaveLength(1000);
  });

  test('arrives whole at a reader that takes its time', async ({ folder }) => {
    await writeBigScore(folder);
    const { stdout } = await shell('$K usage big.mid --format json | (sleep 1; cat)', folder.path);
    expect(document(stdout, 'usage@1').cues[0]?.parts).toHaveLength(1000);
  });
});

describe('a reader that goes away', () => {
  test.for(['usage big.mid', 'usage big.mid --format json'])(
    '%s: no failure, no words',
    async (command, { folder }) => {
      await writeBigScore(folder);
      const { stdout, stderr } = await shell(
        `{ $K ${command} 2>err; echo "code $?" >&2; } | head -c 1`,
        folder.path,
      );
      expect(stdout).toHaveLength(1);
      expect(stderr).toBe('code 0\n');
      expect(await readFile(folder.at('err'), 'utf8')).toBe('');
    },
  );

  test('of stdout and stderr at once', async ({ folder }) => {
    await writeBigScore(folder);
    const line = '{ $K usage big.mid nothing 2>&1; echo "code $?" >&2; } | true';
    expect((await shell(line, folder.path)).stderr).toBe('code 2\n');
  });

  test('does not lose the keep file', async ({ folder }) => {
    await writeBigScore(folder);
    const line = '$K plan big.mid -i bank.sf2 -o keep.json --format json 2>err | true';
    await shell(line, folder.path);
    document(await readFile(folder.at('keep.json'), 'utf8'), 'plan@1');
    expect(Object.keys(await folder.state())).toHaveLength(4);
  });

  test('of stderr only: the result still comes', async ({ score }) => {
    const { stdout } = await shell(
      '{ { sleep 1; $K plan cues -i bank.sf2 --verbose; echo "code $?"; } 2>&3 | cat; } 3>&1 >out | true; cat out',
      score.path,
    );
    expect(stdout).toContain('Keep 2 of 4 zones');
    expect(stdout).toContain('code 0');
  });
});

const fullDisk = '/dev/full';
if (!existsSync(fullDisk)) console.log(`skipped: a full disk behind stdout (no ${fullDisk})`);

test.skipIf(!existsSync(fullDisk))('a full disk behind stdout', async ({ score }) => {
  const { stdout, stderr } = await shell(`$K usage cues > ${fullDisk}; echo "code $?"`, score.path);
  expect(stdout).toBe('code 2\n');
  expectError({ stderr }, 'output-unwritable');
  expect(stderr).toContain('the disk is full');
});
