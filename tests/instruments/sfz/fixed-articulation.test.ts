import { expect, test } from 'vitest';
import { withArticulation } from '../../../src/instruments/fixed-articulation.ts';
import { readText } from '../../playback/sfz-cue.ts';

/** The regions that a route with `articulation: NAME` leaves in reach. */
const inReach = async (text: string, name: string): Promise<readonly number[]> => {
  const instrument = await readText(text);
  const index = instrument.articulations.findIndex((one) => one.name === name);
  const { starts } = withArticulation(instrument, index);
  return [...new Set(starts.filter(({ keys }) => keys[0] <= keys[1]).map(({ zone }) => zone))];
};

const region = '<region> sample=a.wav key=60';

test.each<[string, string, string, number[]]>([
  [
    'the others are out of reach',
    `${region} sw_last=24 sw_label=sus ${region} sw_last=25 sw_label=stac ${region}`,
    'stac',
    [1, 2],
  ],
  [
    'keys that select two of them: both play (activation D, sw_lolast)',
    `${region} sw_lolast=24 sw_hilast=26 sw_label=wide ${region} sw_last=25 sw_label=stac`,
    'stac',
    [0, 1],
  ],
  [
    'a second range of switches goes on (activation D, two ranges)',
    `<group> sw_lokey=20 sw_hikey=21 ${region} sw_last=20 sw_label=sus ${region} sw_last=21 sw_label=stac
     <group> sw_lokey=30 sw_hikey=31 ${region} sw_last=30 ${region} sw_last=31`,
    'stac',
    [1, 2, 3],
  ],
  [
    'a label like the name for what belongs to all',
    `${region} sw_last=24 sw_label=every articulation ${region} sw_last=25 sw_label=stac ${region}`,
    'stac',
    [1, 2],
  ],
])('%s', async (_, text, name, expected) => {
  expect(await inReach(text, name)).toEqual(expected);
});
