import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Instrument } from '../../src/instruments/instrument.ts';
import { zoneDoubts } from '../../src/keep/reach.ts';
import { plain } from '../../src/terms/doubt.ts';
import { randomBank } from '../oracle/random-bank.ts';
import { randomReel, randomSfz } from '../oracle/sfz-random.ts';
import { readBank } from '../instruments/soundfont/reading.ts';
import { writeBank } from '../oracle/soundfont-bytes.ts';
import { inSeconds, readText, sfzText, usageOfSfz } from '../playback/sfz-cue.ts';
import { expectLawful } from './lawful.ts';
import { copyOf, groupOf, written, type Written } from './priming.ts';

const runs = Number(process.env['KEEPSET_PRIMER_RUNS'] ?? 60);

/** How many wanted zones are primed, over a whole property. */
const tally = { wanted: 0, primed: 0 };
const counted = (one: Written, reachable: (zone: number) => boolean): void => {
  const [primed] = one.synthesis.primed;
  const [copy] = one.synthesis.group.copies;
  tally.wanted += copy!.wanted.filter(reachable).length;
  tally.primed += primed!.filter(reachable).length;
};

describe('random SFZ', () => {
  test.each([false, true])('what a random reel keeps, fades %s', async (fades) => {
    tally.wanted = tally.primed = 0;
    await fc.assert(
      fc.asyncProperty(randomSfz({ fades }), randomReel(), async (data, reel) => {
        const instrument = await readText(sfzText(data));
        const files = reel.map((cue, i) => usageOfSfz(instrument, inSeconds(cue), `c${String(i)}`));
        const reached = zoneDoubts(instrument, files);
        const kept = reached.flatMap((sets, zone) => (sets.length > 0 ? [zone] : []));
        const one = written(groupOf(copyOf(instrument, kept)));
        expectLawful(one);
        counted(one, (zone) => reached[zone]![0] === plain);
      }),
      { numRuns: runs, seed: 5 },
    );
    expect(tally.primed / tally.wanted).toBeGreaterThan(0.95);
  });

  test('any zones at all', async () => {
    await fc.assert(
      fc.asyncProperty(
        randomSfz(),
        fc.array(fc.boolean(), { minLength: 40, maxLength: 40 }),
        async (data, keeps) => {
          const instrument = await readText(sfzText(data));
          const kept = instrument.zones.flatMap((_, zone) =>
            keeps[zone % 40] === true ? [zone] : [],
          );
          expectLawful(written(groupOf(copyOf(instrument, kept))));
        },
      ),
      { numRuns: runs, seed: 6 },
    );
  });
});

describe('random banks', () => {
  test('any zones at all', async () => {
    tally.wanted = tally.primed = 0;
    await fc.assert(
      fc.asyncProperty(
        randomBank(),
        fc.array(fc.boolean(), { minLength: 40, maxLength: 40 }),
        async (plan, keeps) => {
          const instrument: Instrument = await readBank(writeBank(plan));
          const kept = instrument.zones.flatMap((_, zone) =>
            keeps[zone % 40] === true ? [zone] : [],
          );
          const one = written(groupOf(copyOf(instrument, kept)));
          expectLawful(one);
          const all = written(groupOf(copyOf(instrument, instrument.zones.keys())));
          expectLawful(all);
          const startable = new Set(
            instrument.program.starts.flatMap(({ zone, doubt, gate, keys, velocities }) =>
              doubt === plain &&
              instrument.program.gates[gate]!.every(({ tests }) => tests.length > 0) &&
              keys[1] >= 0 &&
              velocities[1] > 0
                ? [zone]
                : [],
            ),
          );
          counted(all, (zone) => startable.has(zone));
        },
      ),
      { numRuns: runs, seed: 7 },
    );
    expect(tally.primed).toBeGreaterThan(tally.wanted * 0.9);
  });
});
