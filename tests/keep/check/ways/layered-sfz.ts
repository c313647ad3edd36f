import fc from 'fast-check';
import type { SfzData, SfzHeader, SfzOpcode } from '../../../oracle/sfz-data.ts';
import { randomSfz } from '../../../oracle/sfz-random.ts';

const split = fc.constantFrom(1, 20, 40, 63, 64, 100, 126);

/** Two ranges that leave no gap, as pairs of opcodes. */
const halves =
  (lo: string, hi: string, least: number) =>
  (at: number): readonly (readonly SfzOpcode[])[] => [
    [
      [lo, String(least)],
      [hi, String(at)],
    ],
    [
      [lo, String(at + 1)],
      [hi, '127'],
    ],
  ];

const layers = fc.oneof(
  split.map(halves('lovel', 'hivel', 1)),
  fc
    .tuple(fc.constantFrom('1', '2', '20', '11'), split)
    .map(([number, at]) => halves(`locc${number}`, `hicc${number}`, 0)(at)),
  fc
    .tuple(fc.constantFrom('1', '2', '7'), split)
    .map(([number, at]): readonly (readonly SfzOpcode[])[] => [
      [
        [`xfout_locc${number}`, String(at)],
        [`xfout_hicc${number}`, String(at + 1)],
      ],
      [
        [`xfin_locc${number}`, String(at)],
        [`xfin_hicc${number}`, String(at + 1)],
      ],
    ]),
  fc
    .tuple(fc.constantFrom('1', '20'), split)
    .map(([number, at]) => halves(`on_locc${number}`, `on_hicc${number}`, 0)(at)),
);

const all = { lokey: '58', hikey: '62', sample: 'b.wav' } as const;

/** A random instrument with a few more regions, which lie beside each other: something to go to. */
export const layeredSfz: fc.Arbitrary<SfzData> = fc
  .tuple(
    randomSfz(),
    fc.array(fc.tuple(layers, fc.constantFrom('attack', 'attack', 'release', 'legato')), {
      minLength: 1,
      maxLength: 2,
    }),
    fc.boolean(),
  )
  .map(([data, more, alone]): SfzData => {
    const regions = more.flatMap(([ranges, trigger]) =>
      ranges.map((own): SfzHeader => ({
        name: 'region',
        opcodes: [...Object.entries(all), ...own, ['trigger', trigger]],
      })),
    );
    if (!alone) return { ...data, headers: [...data.headers, ...regions] };
    const { control } = data;
    const kept = data.headers.filter(({ name }) => name === 'curve' || name === 'global');
    return { ...(control === undefined ? {} : { control }), headers: [...kept, ...regions] };
  });
