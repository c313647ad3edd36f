/** That random outlines and cues ask for everything the naive player knows. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { OutlineReel } from './outline-data.ts';
import { playOutline } from './outline-player.ts';
import { randomOutlineReel } from './outline-random-events.ts';
import { randomOutline } from './outline-random.ts';
import { zonesOf } from './outline-zones.ts';

/** At 120 beats a minute and 480 ticks a beat, whatever the tempos: here any seconds will do. */
const timed = (reel: OutlineReel): OutlineReel =>
  reel.map((cue) => ({
    ...cue,
    events: cue.events.map((event) => ({ ...event, seconds: event.tick / 960 })),
  }));

const cases = randomOutline().chain(({ outline, selecting }) =>
  randomOutlineReel(selecting).map((reel) => ({ outline, reel })),
);

test('zones of every kind are reached, by every doubt, and missed', () => {
  const seen = new Map<string, number>();
  const count = (name: string) => seen.set(name, (seen.get(name) ?? 0) + 1);
  for (const { outline, reel } of fc.sample(cases, { seed: 5, numRuns: 400 })) {
    const zones = zonesOf(outline);
    playOutline(outline, timed(reel)).forEach(({ reached }, i) => {
      const kind = zones[i]!.kind;
      if (reached.length === 0) count(`${kind} never`);
      for (const set of reached) {
        if (set.length === 0) count(`${kind} plain`);
        for (const doubt of set) count(`${kind} ${doubt}`);
      }
    });
  }
  const doubts = ['no-switch', 'order', 'smoothing', 'start-state', 'stretch', 'tail'];
  const expected = ['sustain', 'release', 'legato'].flatMap((kind) =>
    [...doubts, 'pedal-held', 'never', 'plain'].map((what) => `${kind} ${what}`),
  );
  // Transitions that a layer joins only when they die away are rare: what comes back has no fades.
  const least = (name: string): number => (name === 'legato tail' ? 1 : 3);
  expect(expected.filter((name) => (seen.get(name) ?? 0) < least(name))).toEqual([]);
});

test('names are each used once', () => {
  for (const { outline } of fc.sample(cases, { seed: 6, numRuns: 200 })) {
    const names = zonesOf(outline).map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
  }
});
