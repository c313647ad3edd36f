import { expect, test } from 'vitest';
import { compilePattern } from '../../src/template/patterns/compile-pattern.ts';
import { defaultMachine } from '../../src/template/machine.ts';
import { defaultPlayer } from '../../src/template/player.ts';
import { singleTemplate } from '../../src/template/single.ts';
import { errorOf, read } from './reader-cases.ts';

const source = { kind: 'soundfont', path: 'keys.sf2', preset: { bank: 0, program: 8 } } as const;

test('one instrument plays every track on the machine and player of no template', async () => {
  const template = singleTemplate('celesta', source);
  const written = await read(
    'instruments: { celesta: { file: keys.sf2, preset: 0:8 } }\nroutes: [ { track: "*", instrument: celesta } ]\n',
  );
  const place = { at: {}, file: 'keys.sf2' };
  expect(template).toEqual({
    ...written,
    path: null,
    sha256: null,
    instruments: written.instruments.map((instrument) => ({ ...instrument, at: {} })),
    routes: written.routes.map((route) => ({ ...route, ...place })),
  });
  expect(template.machines).toEqual([defaultMachine]);
  expect(template.instruments[0]?.player).toBe(defaultPlayer);
});

test('its pattern is the one for any name', () => {
  expect(singleTemplate('a', source).routes[0]?.tracks).toEqual([compilePattern('*')]);
});

test('a table without presets is written as its path', () => {
  const table = { kind: 'zone-table', path: 'harp.csv', middleC: 4 } as const;
  expect(singleTemplate('harp', table).instruments[0]?.written).toBe('harp.csv');
  expect(singleTemplate('keys', { ...source, preset: null }).instruments[0]?.written).toBe(
    'keys.sf2',
  );
});

test('an error is never made of nothing', async () => {
  expect(await errorOf(read('{}'))).toBeNull();
});
