import { describe, expect, test } from 'vitest';
import { readTrackName } from '../../src/draft/track-name.ts';

/** Names as the trade writes them: common practice, from memory. Invented, no score's own. */
const names: readonly (readonly [name: string, key: string, articulation: string | null])[] = [
  ['Vln 1 leg', 'vln', 'legato'],
  ['Vln 2 sus', 'vln', 'sustain'],
  ['VLN II stacc.', 'vln', 'staccato'],
  ['Vln1-Spic', 'vln', 'spiccato'],
  ['Vln_1_conSord', 'vln', 'con sordino'],
  ['Vln 1A trem', 'vln', 'tremolo'],
  ['1st Vln pizz', 'vln', 'pizzicato'],
  ['2nd Vln', 'vln', null],
  ['Vln desk 3 sul pont', 'vln', 'sul ponticello'],
  ['Vla (con sord) leg', 'vla', 'con sordino legato'],
  ['Vla sord trem', 'vla', 'con sordino tremolo'],
  ['Vc {leg}', 'vc', 'legato'],
  ['Vc bartók pizz', 'vc', 'bartok pizzicato'],
  ['Vc flaut.', 'vc', 'flautando'],
  ['Vc measured trem', 'vc', 'measured tremolo'],
  ['Vc col legno', 'vc', 'col legno'],
  ['Vc solo leg', 'vc solo', 'legato'],
  ['Str hi leg', 'str hi', 'legato'],
  ['Str lo sus', 'str lo', 'sustain'],
  ['Hn a4 sus', 'hn', 'sustain'],
  ['Hn a 2 marc', 'hn', 'marcato'],
  ['Hn 1-4 muted', 'hn', 'muted'],
  ['Tpt 1', 'tpt', null],
  ['Tbn. 2 flutter tongue', 'tbn', 'flutter-tongue'],
  ['Fl 1 trills', 'fl', 'trill'],
  ['Ob. d’amore', 'ob d amore', null],
  ['Célesta', 'celesta', null],
  ['Große Trommel roll', 'große trommel', 'roll'],
  ['Perc – Taiko lo', 'perc taiko lo', null],
  ['Perc - Taiko lo hits', 'perc taiko lo', 'hit'],
  ['Cym swell', 'cym', 'swell'],
  ['Choir ah', 'choir', 'ah'],
  ['Choir S ooh', 'choir s', 'oo'],
  ['Low Brass Long', 'low brass', 'long'],
  ['Low Brass Short', 'low brass', 'short'],
  ['Pad 03 FX', 'pad', 'effects'],
  ['leg Vln', 'vln', 'legato'],
  ['leg Vln sord', 'vln', 'legato con sordino'],
  ['Скрипка 1 leg', 'скрипка', 'legato'],
  ['Harp', 'harp', null],
  // Words of the table that are as often something else.
  ['Ten 1', 'ten', null],
  ['Vib', 'vib', null],
  ['Tr. in B', 'tr in b', null],
  // Of these nothing else would remain.
  ['808', '808', null],
  ['Legato', 'legato', null],
  ['Switches', 'switches', null],
  ['1A', '1a', null],
  ['–', '-', null],
  ['', '', null],
];

test.each(names)('%j is %j, %j', (name, key, articulation) => {
  const said = readTrackName(name);
  expect([said.key, said.articulation?.name ?? null]).toEqual([key, articulation]);
});

describe('where the articulation stands', () => {
  test.each([
    ['Vln 1 leg', 'leg'],
    ['Vln 1 (con sord) x', 'con sord'],
    ['Vln 1 sord/trem', 'sord/trem'],
    ['PIZZ. Vln', 'PIZZ'],
    ['Vln Pizz\u0301', 'Pizz\u0301'],
  ])('%j: %j', (name, words) => {
    const span = readTrackName(name).articulation?.span;
    expect(span && name.slice(...span)).toBe(words);
  });

  test('nowhere for one, when two words of it stand apart', () => {
    expect(readTrackName('leg Vln sord').articulation?.span).toBeNull();
  });
});

test.each([
  ['Cel switches', 'cel'],
  ['Vc 1 KS', 'vc 1'],
  ['Vc key switches 2', 'vc 2'],
  ['Keys 1', null],
  ['Cel', null],
])('%j holds the switches of %j', (name, of) => {
  expect(readTrackName(name).switchesOf).toBe(of);
});

test.each([
  ['Click', true],
  ['CLICK TRACK 2', true],
  ['ClickTrack', true],
  ['Metronome', true],
  ['Guide', true],
  ['Count-in click', true],
  // An instrument beside it: someone may mix that.
  ['Tongue click', false],
  ['Guide vox', false],
  ['Track 4', false],
  ['Beat', false],
])('%j is a click: %j', (name, isClick) => {
  expect(readTrackName(name).isClick).toBe(isClick);
});

test('a name that nobody typed is taken whole, and quickly', () => {
  const name = 'leg x '.repeat(20_000);
  expect(readTrackName(name)).toMatchObject({ key: name.trim(), articulation: null });
});
