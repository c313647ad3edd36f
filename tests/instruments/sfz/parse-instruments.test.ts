import { describe, expect, test } from 'vitest';
import { structureOf } from '../../../src/instruments/sfz/structure/regions.ts';
import { effective, read, regionsOf } from './reading.ts';

/** Small instruments after the ideas of the sfizz 1.2.3 test files that are named; the texts are ours. */
describe('activation I', () => {
  test('Regions/many: as many as there are', async () => {
    expect(regionsOf(await read('<region>sample=a.wav\n'.repeat(3)))).toHaveLength(3);
  });

  test('basic_hierarchy: 2 masters with 2 groups with 2 regions each', async () => {
    const group = (name: string): string =>
      `<group> key=${name}\n<region> sample=${name}-soft.wav\n<region> sample=${name}-loud.wav\n`;
    const text =
      `<global> ampeg_release=2\n<master> lovel=1\n${group('40')}${group('41')}` +
      `<master> hivel=99\n${group('42')}${group('43')}`;
    const regions = regionsOf(await read(text));
    expect(regions).toHaveLength(8);
    expect(regions[3]).toEqual({
      ampeg_release: '2',
      lovel: '1',
      key: '41',
      sample: '41-loud.wav',
    });
    expect(regions[4]).toEqual({
      ampeg_release: '2',
      hivel: '99',
      key: '42',
      sample: '42-soft.wav',
    });
  });

  test('groups_avl: five velocity layers on one key', async () => {
    const layers = ['1 26', '27 52', '53 77', '78 102', '103 127'];
    const text = `<group> key=36\n${layers
      .map((layer) => `<region> lovel=${layer.split(' ')[0]!} hivel=${layer.split(' ')[1]!}\n`)
      .join('')}`;
    const regions = regionsOf(await read(text));
    expect(regions.map(({ key, lovel, hivel }) => `${key!} ${lovel!} ${hivel!}`)).toEqual(
      layers.map((layer) => `36 ${layer}`),
    );
  });

  test('SpecificBugs/pizz: four by chance under one group', async () => {
    const text =
      '<group> lokey=12 hikey=22 lovel=97 hivel=127 hicc107=13\n' +
      '<region> hirand=0.25 sample=a.wav <region> lorand=0.25 hirand=0.5 sample=b.wav\n' +
      '<region> lorand=0.5 hirand=0.75 sample=c.wav <region> lorand=0.75 sample=d.wav';
    const { regions } = structureOf(await read(text));
    expect(regions.map((region) => effective(region)['sample'])).toEqual([
      'a.wav',
      'b.wav',
      'c.wav',
      'd.wav',
    ]);
    for (const region of regions) expect(effective(region)).toMatchObject({ hicc107: '13' });
  });

  test('defines: keys counted by variables', async () => {
    const text = '#define $C 36\n#define $D 38\n<region> key=$C <region> key=$D <region> key=$D$C';
    expect(regionsOf(await read(text))).toEqual([{ key: '36' }, { key: '38' }, { key: '3836' }]);
  });

  test('off_by, off_mode and loops under their older names', async () => {
    const text =
      '<region> group=1 offby=2 offmode=normal loopmode=loop_sustain loopstart=4 loopend=124';
    expect(regionsOf(await read(text))).toEqual([
      {
        group: '1',
        off_by: '2',
        off_mode: 'normal',
        loop_mode: 'loop_sustain',
        loop_start: '4',
        loop_end: '124',
      },
    ]);
  });

  test('a kit of one include for each microphone', async () => {
    const text =
      '#define $mic close\n#define $cc 20\n#include "drums.sfz"\n' +
      '#define $mic room\n#define $cc 21\n#include "drums.sfz"\n';
    const document = await read(text, {
      'kit/drums.sfz':
        '<group> amplitude_oncc$cc=100\n<region> key=36 sample=$mic/kick.wav\n<region> key=38 sample=$mic/snare.wav',
    });
    expect(regionsOf(document).map((region) => Object.values(region).join(' '))).toEqual([
      '100 36 close/kick.wav',
      '100 38 close/snare.wav',
      '100 36 room/kick.wav',
      '100 38 room/snare.wav',
    ]);
    expect(regionsOf(document)[3]).toHaveProperty('amplitude_oncc21');
  });
});
