import { expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { report } from '../../src/jobs/report.ts';
import { page } from '../../src/jobs/report-page.ts';
import type { Overview } from '../../src/overview/overview.ts';
import { cueBytes, type CueNote } from '../jobs/midi-cue.ts';
import { proveSeed, Seeded } from './seeded.ts';

const instruments = 150;
const cues = 60;
const machines = ['a', 'b', 'c'];

/**
 * Five articulations, three layers, 25 sampled keys, two microphones: 750 zones, and so 112 500 zones
 * of 150 instruments. It takes half a minute and a page tells of all of them.
 */
const table = [
  'articulation,switch,keys,velocities,round-robin,microphone,seconds,rate,bits,channels',
  ...Array.from(
    { length: 5 },
    (_, a) =>
      `art ${String(a)},${String(12 + a)},C2..C6 every 2,1-40|41-90|91-127,1,close|tree,4,48000,24,2`,
  ),
].join('\n');

const template = `cues: cues/*.mid
machines: { ${machines.map((id) => `${id}: { memory: 60 GiB }`).join(', ')} }
players: { p: { loads: streamed, head: 64 KiB, shares: copy, unloads: sample } }
instruments:
${Array.from(
  { length: instruments },
  (_, i) =>
    `  inst${String(i)}: { zones: table.csv, middle-c: C4, player: p, machine: ${machines[i % 3]!} }`,
).join('\n')}
routes:
${Array.from(
  { length: instruments },
  (_, i) => `  - { track: 'Tr ${String(i)} *', instrument: inst${String(i)} }`,
).join('\n')}
`;

test('a page of 112 500 zones, 150 instruments and 60 cues is under 2 MiB', async () => {
  const random = new Seeded(proveSeed);
  const files: Record<string, Uint8Array | string> = {
    'keepset.yaml': template,
    'table.csv': table,
  };
  for (let cue = 0; cue < cues; cue++) {
    const tracks = Array.from({ length: instruments }, (_, i) => i)
      .filter(() => random.below(2) === 0)
      .map((i) => {
        const notes: CueNote[] = [
          { tick: 0, key: 12 + random.below(4), velocity: 100, length: 10 },
        ];
        for (let n = 1; n <= 40; n++) {
          notes.push({
            tick: 240 * n,
            key: 40 + random.below(40),
            velocity: 1 + random.below(127),
            length: 120,
          });
        }
        return { name: `Tr ${String(i)} x`, notes };
      });
    const reel = `${String(1 + Math.floor(cue / 10))}m${String((cue % 10) + 1)}`;
    files[`cues/${reel}.mid`] = cueBytes(tracks);
  }
  const overview = await report({ files: new MemoryFiles(files) });
  expect(overview.total.zones).toBe(112_500);
  expect(overview.cues).toHaveLength(cues);
  const html = await page(overview);
  const bytes = Buffer.byteLength(html);
  expect(bytes).toBeLessThan(2 * 2 ** 20);
  // Reduced no more than needed: what is left fills most of the room.
  expect(bytes).toBeGreaterThan(1.4 * 2 ** 20);
  const [, data = ''] = /<script[^>]* id="?data"?[^>]*>(.*?)<\/script>/s.exec(html) ?? [];
  const { reduced } = JSON.parse(data) as Overview;
  console.log(`page: ${String(bytes)} bytes; given up: ${reduced.join(', ')}`);
}, 600_000);
