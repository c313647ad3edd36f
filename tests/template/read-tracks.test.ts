import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { readTracks } from '../../src/template/routes/read-tracks.ts';
import { anyText } from './any-text.ts';
import { rulesOf } from './rules.ts';

const utf8 = new TextEncoder();
const read = (text: string, columns: Readonly<Record<string, string>> = {}) =>
  readTracks(utf8.encode(text), 'tracks.csv', columns);

/** Code, severity, place and arguments of each problem. */
const problemsOf = (text: string, columns?: Readonly<Record<string, string>>) =>
  read(text, columns).problems.map(({ code, severity, at, args }) => [
    code,
    severity,
    at === null ? null : `${String(at.line)}:${String(at.column)}`,
    args,
  ]);

const headings =
  'track,cue,port,channel,instrument,articulation,join,transpose,velocity,controllers,printed,ignore';

describe('a table of tracks', () => {
  it('is a rule a row', () => {
    const text = [
      headings,
      'Vc {art},1m*,2,3,low-strings,{art},,,,,,',
      'Low brass*,,,,trombones | tuba,,,-12,0.9,11:1 | CC2: 11,x,',
      'Cel,,,,celesta,,cel copy,+3,,,no,0',
      '*click*,,,,,,,,,,,YES',
    ].join('\r\n');
    const { routes, problems } = read(text);
    expect(problems).toEqual([]);
    const expected = rulesOf(
      [
        {
          tracks: ['Vc {art}'],
          cue: '1m*',
          port: 2,
          channel: 3,
          instruments: ['low-strings'],
          articulation: '{art}',
        },
        {
          tracks: ['Low brass*'],
          instruments: ['trombones', 'tuba'],
          transpose: -12,
          velocity: 0.9,
          controllers: new Map([
            [11, 1],
            [2, 11],
          ]),
          printed: true,
        },
        { tracks: ['Cel'], instruments: ['celesta'], joinWord: 'cel copy', transpose: 3 },
        { tracks: ['*click*'], ignore: true },
      ],
      'tracks.csv',
    );
    expect(routes).toEqual(
      expected.map((route, i) => ({ ...route, at: { line: i + 2, column: 1 } })),
    );
  });

  it('may come with a byte order mark, semicolons and decimal commas', () => {
    const { routes, problems } = read('\ufefftrack;instrument;velocity\nHn*;horns;0,9\n');
    expect(problems).toEqual([]);
    expect(routes).toMatchObject([{ outcome: { transform: { velocity: 0.9 } } }]);
  });

  it('may be divided by tabs', () => {
    expect(read('track\tinstrument\nHn, muted\thorns\n').routes).toMatchObject([
      { rule: 'track "Hn, muted"', outcome: { instruments: ['horns'] } },
    ]);
  });

  it('headings are compared as names are', () => {
    const columns = { track: 'Track Name', instrument: 'patch_id' };
    const text = 'TRACK_NAME, Patch id ,Ärticulation\nHn*,horns,sus\n';
    const { routes, problems } = read(text, columns);
    expect(problems).toEqual([]);
    expect(routes).toMatchObject([{ outcome: { instruments: ['horns'], articulation: 'sus' } }]);
  });

  it('a heading that is given to one column is not that of another', () => {
    const { routes, problems } = read('track,Port\nHn*,horns\n', { instrument: 'port' });
    expect(problems).toEqual([]);
    expect(routes).toMatchObject([{ port: null, outcome: { instruments: ['horns'] } }]);
  });

  it('rows of one word join under the spelling of the first', () => {
    const { routes } = read('track,instrument,join\nCel,cel,Celesta\nCel sw,cel,CÉLESTA\n');
    expect(routes.map(({ join }) => join)).toEqual(['Celesta', 'Celesta']);
  });
});

describe('nothing is left out silently', () => {
  const row = (cells: Readonly<Record<string, string>>): string =>
    `${headings}\n${headings
      .split(',')
      .map((column) => cells[column] ?? { track: 'a', instrument: 'b' }[column] ?? '')
      .join(',')}`;

  test.each([
    ['port', 'two', 'number', 3],
    ['channel', '1-4', 'number', 3],
    ['transpose', 'up', 'number', 8],
    ['velocity', '90%', 'number', 8],
    ['controllers', '11:01:00', 'controllers', 10],
    ['controllers', '11', 'controllers', 10],
    ['controllers', '11:1 | 11:2', 'controllers', 10],
    ['printed', 'maybe', 'yes-no', 10],
    ['ignore', '2', 'yes-no', 12],
    ['instrument', 'a | | b', 'instruments', 4],
  ])('%s: %s', (column, cell, expects) => {
    const text = row({ [column]: cell });
    const line = text.split('\n')[1]!;
    const at = `2:${String(line.indexOf(cell) + 1)}`;
    expect(problemsOf(text)).toEqual([['tracks-cell', 'error', at, { column, cell, expects }]]);
    expect(read(text).routes).toEqual([]);
  });

  test.each([
    ['tracks-empty', '', null, {}],
    [
      'tracks-heading-missing',
      'name,instrument\na,b',
      '1:1',
      { column: 'track', heading: 'track', present: ['name', 'instrument'] },
    ],
    ['tracks-heading-twice', 'track,instrument,Track\na,b,c', '1:18', { heading: 'Track' }],
    ['tracks-cell-extra', 'track,instrument\na,b\nc,d,e', '3:5', { cell: 'e' }],
    ['tracks-cell-extra', 'track,,instrument\na,x,b', '2:3', { cell: 'x' }],
    ['tracks-unreadable', 'track\n"a', '2:1', { problem: 'quote-open' }],
    ['route-without-tracks', 'track,instrument\n,b', '2:1', {}],
    ['route-without-outcome', 'track,instrument\na,b\nc,', '3:1', { rule: 'track "c"' }],
    ['route-without-outcome', 'track,ignore\na,no', '2:1', { rule: 'track "a"' }],
    [
      'route-number',
      'track,channel,instrument\na,17,b',
      '2:3',
      { field: 'channel', value: 17, lo: 1, hi: 16 },
    ],
    [
      'route-pattern',
      'track,instrument\nVc {,b',
      '2:1',
      { field: 'tracks', pattern: 'Vc {', problem: 'brace-open', column: 4 },
    ],
    [
      'route-ignore-and',
      'track,instrument,ignore\na,b,x',
      '2:3',
      { rule: 'track "a"', field: 'instruments' },
    ],
    [
      'route-capture',
      'track,instrument,articulation\na,b,{art}',
      '2:5',
      { field: 'articulation', capture: 'art', pattern: 'a' },
    ],
    // They would never meet: only equal captures join.
    [
      'route-join-captures',
      'track,instrument,join\nCel {n},cel,c\nCel sw,cel,C',
      '3:1',
      { first: 'Cel {n}', second: 'Cel sw' },
    ],
  ])('%s: %j', (code, text, at, args) => {
    expect(problemsOf(text)).toEqual([[code, 'error', at, args]]);
  });

  it('a renamed heading that is not there', () => {
    expect(problemsOf('track,instrument\na,b', { cue: 'Scene' })).toEqual([
      [
        'tracks-heading-missing',
        'error',
        '1:1',
        { column: 'cue', heading: 'Scene', present: ['track', 'instrument'] },
      ],
    ]);
  });

  it('a renaming of what is no column', () => {
    expect(problemsOf('track,instrument\na,b', { joined: 'x' })).toEqual([
      ['tracks-renaming', 'error', null, { column: 'joined', near: 'join' }],
    ]);
  });

  it('slips of the pen, also where they are why a heading is not there', () => {
    expect(problemsOf('Trakc,instrument,Colour\na,b,c').map(([code]) => code)).toEqual([
      'tracks-heading-missing',
      'tracks-heading-near',
    ]);
  });

  it('every cell of a row that cannot be read, and the rows around it', () => {
    const text = 'track,port,channel,instrument\na,x,y,b\nc,1,1,d\n';
    expect(problemsOf(text).map(([code, , at]) => [code, at])).toEqual([
      ['tracks-cell', '2:3'],
      ['tracks-cell', '2:5'],
    ]);
    expect(read(text).routes).toHaveLength(1);
  });

  it('headings that mean nothing are noted, slips of the pen are a warning', () => {
    const { routes, problems } = read('track,instrument,Colour,chanel,Vendor list\na,b,red,1,x\n');
    expect(routes).toHaveLength(1);
    expect(problems).toMatchObject([
      {
        code: 'tracks-heading-near',
        severity: 'warning',
        at: { line: 1, column: 25 },
        args: { heading: 'chanel', near: 'channel' },
      },
      {
        code: 'tracks-headings-unknown',
        severity: 'note',
        args: { headings: ['Colour', 'Vendor list'], more: 0 },
      },
    ]);
  });

  it('a table of headings alone is a warning', () => {
    expect(problemsOf(headings)).toEqual([['tracks-empty', 'warning', null, {}]]);
  });

  it('accents of no certain meaning are noted', () => {
    const bytes = Uint8Array.of(...utf8.encode('track,instrument\nC'), 0xe9, ...utf8.encode('l,b'));
    const { routes, problems } = readTracks(bytes, 'tracks.csv', {});
    expect(problems).toMatchObject([{ code: 'tracks-encoding', severity: 'note' }]);
    expect(routes).toMatchObject([{ rule: 'track "Cél"' }]);
  });

  it('the first 100 errors are listed, the rest are counted', () => {
    const { problems } = read(`track,instrument\n${'a,\n'.repeat(250)}`);
    expect(problems).toHaveLength(101);
    expect(problems.at(-1)).toMatchObject({ code: 'tracks-more-errors', args: { more: 150 } });
  });

  it('20 000 rows are enough', () => {
    expect(read(`track,instrument\n${'a,b\n'.repeat(20_000)}`).routes).toHaveLength(20_000);
    expect(problemsOf(`track,instrument\n${'a,b\n'.repeat(20_001)}`)).toEqual([
      ['tracks-too-many', 'error', null, { rows: 20_001, limit: 20_000 }],
    ]);
  });
});

test('each row becomes a rule or an error on its lines, whatever stands in it', () => {
  const cell = fc.oneof(
    fc.constantFrom('', 'a', '{n}', '*', '1', '17', '11:1', 'x', 'yes', 'p | q', '"a,b"', '{'),
    anyText(4).map((text) => text.replace(/[",\r\n\0]/gu, '')),
  );
  const row = fc.array(cell, { minLength: 1, maxLength: 13 });
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 4 }), (rows) => {
      const lines = rows.map((cells) => `z,${cells.join(',')}`);
      const { routes, problems } = read(`${headings}\n${lines.join('\n')}`);
      for (const line of lines.keys()) {
        const here = ({ at }: { at: { line?: number } | null }): boolean => at?.line === line + 2;
        const made = routes.filter(here).length;
        expect(made).toBeLessThanOrEqual(1);
        expect(made === 1).toBe(!problems.some(here));
      }
    }),
    { numRuns: 200 },
  );
});

test('bytes of any kind never throw', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 200 }), fc.boolean(), (bytes, headed) => {
      const all = headed ? Uint8Array.of(...utf8.encode(`${headings}\n`), ...bytes) : bytes;
      const { routes, problems } = readTracks(all, 'tracks.csv', { track: 'track' });
      expect(routes.length + problems.length).toBeGreaterThan(0);
    }),
    { numRuns: 500 },
  );
});
