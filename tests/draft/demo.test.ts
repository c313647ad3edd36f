import { expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { draft } from '../../src/jobs/draft.ts';
import { routeAll, templateOf } from './route-all.ts';

const demo = demoFiles();
const files = new MemoryFiles(Object.fromEntries(demo.map(({ path, bytes }) => [path, bytes])));

test('the draft for the cues of the demo', async () => {
  const { text, added } = await draft({ cues: ['cues'], files });
  await expect(text).toMatchFileSnapshot('demo.yaml.golden');
  const template = await templateOf(text);
  expect(template.cues).toEqual(['cues']);
  // The demo's parts, from its own table: 28 tracks; the click does nothing.
  expect(added).toBe(27);
  for (const { path, bytes } of demo.filter(({ path: one }) => one.endsWith('.mid'))) {
    expect(routeAll(template, bytes).unmapped, path).toEqual([]);
  }
});

test('what is commented out can be used as it stands', async () => {
  const { text } = await draft({ cues: ['cues'], files });
  const used = text.replace(/^# (machines:)\n# ( {2}main: .*)$/m, '$1\n$2');
  expect(used).not.toBe(text);
  const { machines, instruments } = await templateOf(used);
  // 64 GiB less 12 GiB.
  expect(machines).toEqual([{ id: 'main', budget: 52 * 2 ** 30 }]);
  expect(instruments[0]!.machine).toBe('main');
});

test('its player loads and unloads as it would without a template', async () => {
  const { text } = await draft({ cues: ['cues'], files });
  const { instruments } = await templateOf(text);
  const { defaultPlayer } = await import('../../src/template/player.ts');
  expect(instruments[0]!.player).toEqual({ ...defaultPlayer, id: 'sampler' });
});
