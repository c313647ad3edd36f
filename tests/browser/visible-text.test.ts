import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { page } from '../../src/jobs/report-page.ts';
import { hasChromium, startChromium } from './chromium.ts';
import { tinyOverview, type TinyRig } from './tiny-rig.ts';
import {
  bytesSaved,
  firstFailing,
  fitsAfter,
  largestAction,
  machineFits,
  mayPlay,
} from './visible-reader.ts';

/**
 * What a person finds out by reading. The expected answers are worked out by hand from the sizes in
 * `tiny-rig.ts`: 21 MiB are loaded; muted horns (10 MiB) and the short flute (5 MiB) are not played.
 */
describe.skipIf(!hasChromium)('what the page says to those who read it', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await startChromium();
  });
  afterAll(() => browser.close());

  const read = async (rig: TinyRig): Promise<string> => {
    const html = await page(await tinyOverview(rig));
    const tab = await browser.newPage({ javaScriptEnabled: true });
    await tab.setContent(html);
    const text = await tab.locator('body').innerText();
    await tab.close();
    return text;
  };

  it('answers for a rig whose machine b is too small', async () => {
    // b holds sustain and staccato, 3 + 1 MiB, and has 3 MiB.
    const text = await read({ memoryOfB: '3 MiB' });
    expect(bytesSaved(text)).toBe('15.0 MiB');
    expect(machineFits(text, 'a')).toBe(true);
    expect(machineFits(text, 'b')).toBe(false);
    expect(mayPlay(text, 'horns', 'muted')).toBe(false);
    expect(mayPlay(text, 'horns', 'staccato')).toBe(true);
    expect(mayPlay(text, 'flute', 'short')).toBe(false);
    const { frees, steps, ...action } = largestAction(text)!;
    expect(steps).toBe('2');
    expect(action).toEqual({ machine: 'b', instrument: 'horns', what: 'muted' });
    expect(frees).toMatch(/^(10\.0 MiB|10 240\.0 KiB)$/);
    expect(firstFailing(text)).toBeNull();
  });

  it('answers otherwise where the horns play muted and machine b has room', async () => {
    // All that the revision asks for is planned: everything stays, and b needs 14 MiB of 16 MiB.
    const text = await read({ memoryOfB: '16 MiB', mutedIsPlayed: true });
    expect(machineFits(text, 'b')).toBe(true);
    expect(mayPlay(text, 'horns', 'muted')).toBe(true);
    expect(largestAction(text)).toBeNull();
  });

  it('counts the layers of an articulation together', async () => {
    // Flute 2 + 5 MiB on a, horns 3 + 1 + 4 + 4 MiB on b, which has 6 MiB: after the first of the two
    // layers of muted, 8 MiB are left, after the second 4. The flute's step has the number 1.
    const text = await read({ memoryOfB: '6 MiB', inLayers: true });
    const { frees, steps, ...action } = largestAction(text)!;
    expect(action).toEqual({ machine: 'b', instrument: 'horns', what: 'muted' });
    expect(frees).toMatch(/^(8\.0 MiB|8 192\.0 KiB)$/);
    expect(steps).toBe('2-3');
    expect([fitsAfter(text, 'a'), fitsAfter(text, 'b')]).toEqual(['as it is', 'after step 3']);
    expect(text).toContain('Machine a fits as it is: no step is needed for it.');
    expect(text).toContain('Machine b fits from here on.');
  });

  it('says where a revision first asks for what was dropped', async () => {
    const text = await read({ memoryOfB: '16 MiB', revised: true });
    expect(firstFailing(text)).toEqual({ cue: '3m1 v2', bar: 5, beat: 2 });
    expect(machineFits(text, 'b')).toBe(true);
    expect(mayPlay(text, 'horns', 'muted')).toBe(false);
  });
});
