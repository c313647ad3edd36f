import { expect, test } from 'vitest';
import { pageAssets } from '../../../src/files/page-assets.ts';
import type { PlayableStretch } from '../../../src/overview/overview-playable.ts';
import type { Overview } from '../../../src/overview/overview.ts';
import { plainColors } from '../../../src/report/colors.ts';
import type { Look } from '../../../src/report/look.ts';
import { reportPage } from '../../../src/report/page/report-page.ts';
import { reportText } from '../../../src/report/report-text.ts';
import {
  legendSaid,
  lostSaid,
  notLoadedSaid,
  promiseSaid,
} from '../../../src/report/said/composer.ts';
import type { Said } from '../../../src/report/said/said.ts';
import { saidText } from '../../../src/report/summary/said-text.ts';
import { missingOverview, overview } from '../fixtures/overview.ts';

const look: Look = { colors: plainColors, ascii: false, width: null, middleC: 4 };
const assets = await pageAssets();

const section = (of: Overview): string =>
  /<section id=composer.*?<\/section>/s.exec(reportPage(of, assets))![0];

/** What is read of it. */
const onPage = (of: Overview): string =>
  section(of)
    .replace(/<[^>]*>/g, '')
    .replaceAll('\u00a0', ' ')
    .replaceAll('&quot;', '"');

/** Nothing of any instrument stays. */
const nothingStays: Overview = {
  ...overview,
  instruments: overview.instruments.map((one) => ({ ...one, zonesKept: 0 })),
};

const sentences = (of: Overview): readonly Said[] => {
  const gone = notLoadedSaid(of);
  return [
    promiseSaid(of),
    ...(gone === null ? [] : [[`${gone.title} `, ...gone.said]]),
    legendSaid(of),
  ];
};

test.each([
  ['proved', overview],
  ['missing', missingOverview],
  ['nothing stays', nothingStays],
])('page and text tell the composer the same: %s', (_, of) => {
  const text = reportText(of, look);
  for (const one of sentences(of).map((said) => saidText(said, look))) {
    expect(text).toContain(one);
    expect(onPage(of)).toContain(one);
  }
});

test('the promise says what it leaves out', () => {
  const promise = saidText(promiseSaid(overview), look);
  expect(promise).toContain('starts nothing but what stays loaded');
  expect(promise).toContain('a leap just ahead of a note is a doubt to keepset check');
  expect(promise).toContain('What a controller starts by itself is told by the maps');
});

test('of nothing nothing is promised', () => {
  expect(promiseSaid(nothingStays)).toEqual(['Nothing stays loaded, so nothing can be written.']);
  expect(saidText(notLoadedSaid(nothingStays)!.said, look)).toBe('horns, strings, flute, timpani.');
  const all = { instruments: overview.instruments.slice(0, 1) };
  expect(notLoadedSaid(all)).toBeNull();
});

test('what is gone, and what is loaded though no track leads to it', () => {
  const [horns] = overview.instruments;
  const texts = (copies: readonly string[] | null, gone: readonly string[]) =>
    lostSaid(horns!, copies, gone).map((one) => saidText(one, look));
  expect(texts(null, [])).toEqual([]);
  // All of staccato stays.
  expect(texts(null, ['staccato', 'muted'])).toEqual([
    'staccato: loaded, but no track leads to it',
    'muted: gone',
  ]);
  expect(texts(['Horns 1'], ['staccato', 'muted'])).toEqual(['staccato, muted: gone']);
});

/** The horns' sustain with some room for dynamics. */
const withRoom = (room: Partial<PlayableStretch>): Overview => ({
  ...overview,
  instruments: overview.instruments.map((instrument) => ({
    ...instrument,
    articulations: instrument.articulations.map((one) =>
      one.name !== 'sustain' || instrument.id !== 'horns'
        ? one
        : {
            ...one,
            playable: {
              ...one.playable,
              stretches: one.playable.stretches.map((stretch) => ({ ...stretch, ...room })),
            },
          },
    ),
  })),
});

const inPart = [{ by: 'velocity', safe: [], all: [1, 127] }] as const;

test.each<readonly [string, Partial<PlayableStretch>, string | null]>([
  ['limits in words', {}, null],
  ['what decides is named', { dynamics: inPart, dependsOn: ['velocity'] }, 'in part, by velocity'],
  ['what decides is not known', { dynamics: inPart }, 'in part'],
])('the map is pointed at where limits cannot be said: %s', (_, room, words) => {
  const [line] = /<p data-instrument="horns">.*?<\/p>/s.exec(section(withRoom(room)))!;
  expect(line.match(/>see its map</g) ?? []).toHaveLength(words === null ? 0 : 1);
  if (words !== null) expect(line).toContain(`${words} <span class=see>`);
});
