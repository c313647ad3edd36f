import { readFile, stat, writeFile } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readBankSamples } from './bank-samples.ts';
import { startDifferences, unforeseen } from './compare-starts.ts';
import { merged, poisonDropped, poisonOne, without } from './poison.ts';
import { Renders } from './renders.ts';
import { runLimited } from './run-limited.ts';
import { Seeded } from './seeded.ts';
import { countingBank, countingPresets } from './suite/counting-bank.ts';

/** The proofs prove nothing unless what they are made of can fail; these are quick. */
let folder: Renders;
beforeAll(async () => {
  folder = await Renders.open();
});
afterAll(async () => {
  await folder.close();
});

describe('running with limits', () => {
  it('stops a program that takes too long, with all it started', async () => {
    const started = Date.now();
    const { ended, code } = await runLimited('sh', ['-c', 'sleep 60 & sleep 60'], {
      seconds: 1,
      fileBytes: 1024,
    });
    expect({ ended, code }).toEqual({ ended: 'time', code: null });
    expect(Date.now() - started).toBeLessThan(30_000);
  });

  it('cuts a file at exactly the limit', async () => {
    const out = folder.file('big');
    // `exec`, so that the writer is the program that the limit ends.
    const { ended } = await runLimited('sh', ['-c', 'exec yes > "$1"', 'sh', out], {
      seconds: 60,
      fileBytes: 100 * 512,
    });
    expect(ended).toBe('size');
    expect((await stat(out)).size).toBe(100 * 512);
  });

  it('passes on lines and the exit code', async () => {
    const lines: string[] = [];
    const script = 'echo one >&2; echo two; echo three >&2; exit 3';
    const limits = { seconds: 20, fileBytes: 1024 };
    const result = await runLimited('sh', ['-c', script], limits, (line) => lines.push(line));
    expect(result).toEqual({ ended: 'exit', code: 3, stdout: 'two\n', stderr: '' });
    expect(lines).toEqual(['one', 'three']);
  });
});

describe('choosing by a seed', () => {
  it('is the same for one seed and another for another', () => {
    const members = Array.from({ length: 31 }, (_, n) => n);
    const five = new Seeded(1).choose(members, 5);
    expect(new Set(five).size).toBe(5);
    expect(new Seeded(1).choose(members, 5)).toEqual(five);
    expect(new Seeded(2).choose(members, 5)).not.toEqual(five);
    expect(new Seeded(1).choose(members, 40).sort((a, b) => a - b)).toEqual(members);
  });
});

describe('intervals', () => {
  it('are joined where they overlap or touch', () => {
    expect(
      merged([
        { start: 50, end: 60 },
        { start: 0, end: 10 },
        { start: 8, end: 20 },
        { start: 20, end: 30 },
        { start: 55, end: 57 },
        { start: 70, end: 70 },
      ]),
    ).toEqual([
      { start: 0, end: 30 },
      { start: 50, end: 60 },
    ]);
  });

  it('lose what is spared, at both ends and in the middle', () => {
    const spared = [
      { start: 0, end: 10 },
      { start: 40, end: 50 },
      { start: 90, end: 120 },
    ];
    expect(without([{ start: 5, end: 100 }], spared)).toEqual([
      { start: 10, end: 40 },
      { start: 50, end: 90 },
    ]);
    expect(without([{ start: 42, end: 48 }], spared)).toEqual([]);
    expect(without([{ start: 60, end: 80 }], spared)).toEqual([{ start: 60, end: 80 }]);
  });
});

describe('poison', () => {
  const points = 800;
  const guard = 46;
  const step = points + guard;

  const changedWords = async (clean: string, poisoned: string): Promise<readonly number[]> => {
    const { smpl } = await readBankSamples(clean);
    const [one, other] = await Promise.all([readFile(clean), readFile(poisoned)]);
    expect(other.length).toBe(one.length);
    const changed: number[] = [];
    for (let at = 0; at < one.length; at += 1) {
      const word = Math.floor((at - smpl.at) / 2);
      if (one[at] !== other[at] && changed.at(-1) !== word) changed.push(word);
    }
    return changed;
  };

  const bankFile = async (): Promise<string> => {
    const bank = folder.file('sf2');
    await writeFile(bank, countingBank());
    return bank;
  };

  it('reads the headers of the bank', async () => {
    const { headers, smpl, sm24 } = await readBankSamples(await bankFile());
    expect(headers).toHaveLength(3 * countingPresets.length);
    expect(headers[2]).toEqual({
      name: 'Tone 2',
      start: 2 * step,
      end: 2 * step + points,
      rom: false,
    });
    expect(smpl.bytes).toBe(2 * step * headers.length);
    expect(sm24).toBeNull();
  });

  it('covers the dropped samples and nothing else', async () => {
    const bank = await bankFile();
    const out = folder.file('sf2');
    const kept = [0, 2];
    const dropped = Array.from({ length: 3 * countingPresets.length }, (_, n) => n).filter(
      (n) => !kept.includes(n),
    );
    const words = await poisonDropped(bank, out, dropped, kept, 1);
    expect(words).toBe(dropped.length * points);
    const changed = await changedWords(bank, out);
    const inside = dropped.map((n) => ({ start: n * step, end: n * step + points }));
    const outside = changed.filter((w) => !inside.some(({ start, end }) => w >= start && w < end));
    expect(outside).toEqual([]);
    // Noise may hit a word's own value, one time in 65 536.
    expect(changed.length).toBeGreaterThan(words * 0.99);
  });

  it('covers one kept sample and nothing else', async () => {
    const bank = await bankFile();
    const out = folder.file('sf2');
    expect(await poisonOne(bank, out, 4, [0, 4, 5], 1)).toBe(points);
    const changed = await changedWords(bank, out);
    expect(changed.every((word) => word >= 4 * step && word < 4 * step + points)).toBe(true);
    expect(changed.length).toBeGreaterThan(points * 0.99);
  });

  it('spares points that a kept sample shares, and the words after it', async () => {
    const bank = await bankFile();
    const bytes = await readFile(bank);
    const header = bytes.indexOf('Tone 1\0');
    // Sample 1 now starts 100 points before the end of sample 0.
    bytes.writeUInt32LE(points - 100, header + 20);
    await writeFile(bank, bytes);
    const out = folder.file('sf2');
    const words = await poisonDropped(bank, out, [1], [0], 1);
    expect(words).toBe(points);
    expect(Math.min(...(await changedWords(bank, out)))).toBeGreaterThanOrEqual(points + guard);
  });
});

describe('comparing voices', () => {
  it('names what differs, and what nothing foresees', () => {
    const log = new Map([
      ['0,60,90', 2],
      ['0,61,90', 3],
      ['0,62,90', 1],
    ]);
    const plain = new Map([
      ['0,60,90', 2],
      ['0,61,90', 2],
      ['0,63,90', 1],
    ]);
    const union = new Map([...plain, ['0,61,90', 4]]);
    const differences = startDifferences(log, plain, union);
    expect(differences).toEqual([
      { start: '0,61,90', log: 3, plain: 2, union: 4 },
      { start: '0,62,90', log: 1, plain: 0, union: 0 },
      { start: '0,63,90', log: 0, plain: 1, union: 1 },
    ]);
    expect(unforeseen(differences).map(({ start }) => start)).toEqual(['0,62,90']);
  });
});
