import { checkRows, documented, probed, regions, sfizz, suite, type Row } from './playing.ts';

/**
 * Sequences. Engines count different notes, and the count goes on from cue to cue: which step comes
 * first is not known, so every step that can come is kept on every note.
 */
const activation = sfizz('RegionActivationT');

const rows: readonly Row[] = [
  {
    what: 'step 1 of 2: may come on every note',
    from: activation,
    sfz: regions('seq_length=2 seq_position=1'),
    steps: ['on 60 90 -> 0', 'on 60 91 -> 0', 'on 60 92 -> 0', 'on 60 93 -> 0'],
  },
  {
    what: 'step 2 of 2: may come on every note',
    from: activation,
    sfz: regions('seq_length=2 seq_position=2'),
    steps: ['on 60 90 -> 0', 'on 60 91 -> 0', 'on 60 92 -> 0', 'on 60 93 -> 0'],
  },
  {
    what: 'step 2 of 3, and the last',
    from: activation,
    sfz: regions('seq_length=3 seq_position=2', 'seq_length=3 seq_position=3'),
    steps: ['on 60 -> 0 1', 'on 60 -> 0 1'],
  },
  {
    what: 'a step behind the last one never comes',
    from: probed,
    sfz: regions('seq_length=2 seq_position=3', 'seq_position=2'),
    steps: ['on 60', 'on 60', 'on 60'],
  },
  {
    what: 'length 0 with step 1 is every note',
    from: probed,
    sfz: regions('seq_length=0 seq_position=1'),
    steps: ['on 60 -> 0', 'on 60 -> 0'],
  },
  {
    // One engine plays every step once and is silent from then on.
    what: 'length 0 with a later step comes in another engine',
    from: documented,
    sfz: regions('seq_length=0 seq_position=2'),
    steps: ['on 60 -> 0?', 'on 60 -> 0?'],
  },
  {
    // The first engine takes it for step 1; for the others it never comes.
    what: 'step 0 comes in another engine',
    from: probed,
    sfz: regions('seq_length=2 seq_position=0'),
    steps: ['on 60 -> 0?', 'on 60 -> 0?'],
  },
  {
    what: 'a length alone is step 1 of it',
    from: activation,
    sfz: regions('seq_length=3'),
    steps: ['on 60 -> 0', 'on 60 -> 0', 'on 60 -> 0'],
  },
  {
    what: 'two keys with three steps each: the steps of the key that is played',
    from: suite('02/04'),
    sfz: regions(
      ...[1, 2, 3].map((step) => `key=60 seq_length=3 seq_position=${String(step)}`),
      ...[1, 2, 3].map((step) => `key=61 seq_length=3 seq_position=${String(step)}`),
    ),
    steps: [
      ...['on 60 90 -> 0 1 2', 'on 60 91 -> 0 1 2', 'on 61 92 -> 3 4 5'],
      ...['on 60 93 -> 0 1 2', 'on 60 94 -> 0 1 2'],
    ],
  },
  {
    what: 'one counter for all keys of a region, or one for each: both steps are kept',
    from: probed,
    sfz: regions(
      'lokey=60 hikey=62 seq_length=2 seq_position=1',
      'lokey=60 hikey=62 seq_length=2 seq_position=2',
    ),
    steps: ['on 60 90 -> 0 1', 'on 61 91 -> 0 1', 'on 62 92 -> 0 1', 'on 60 93 -> 0 1', 'on 63'],
  },
  {
    what: 'steps that controllers start',
    from: sfizz('SynthT'),
    sfz: regions(
      ...[1, 2, 3, 4].map(
        (step) => `hikey=-1 on_locc4=1 seq_length=3 seq_position=${String(step)}`,
      ),
    ),
    steps: [
      ...['cc 4 10 ch 1 -> 0 1 2', 'cc 4 20 ch 2 -> 0 1 2', 'cc 4 21 ch 3 -> 0 1 2'],
      ...['cc 4 22 ch 4 -> 0 1 2', 'cc 4 0 ch 5', 'on 60'],
    ],
  },
  {
    what: 'step 0 of a sequence that controllers start',
    from: probed,
    sfz: regions('hikey=-1 on_locc4=1 seq_length=2 seq_position=0'),
    steps: ['cc 4 10 -> 0?', 'cc 4 0'],
  },
  {
    // The first engine counts every note on the keys, the second only those that would play.
    what: 'notes of another velocity layer may count or not',
    from: probed,
    sfz: regions(
      'hivel=64 seq_length=2 seq_position=1',
      'hivel=64 seq_length=2 seq_position=2',
      'lovel=65 seq_length=2 seq_position=1',
      'lovel=65 seq_length=2 seq_position=2',
    ),
    steps: ['on 60 30 -> 0 1', 'on 60 100 -> 2 3', 'on 60 30 -> 0 1', 'on 60 30 -> 0 1'],
  },
  {
    what: 'notes under a closed controller gate may count or not',
    from: probed,
    sfz: regions('locc1=64 seq_length=2 seq_position=1', 'locc1=64 seq_length=2 seq_position=2'),
    steps: ['cc 1 100', 'on 60 -> 0 1', 'cc 1 0', 'on 60', 'cc 1 100', 'on 60 -> 0 1'],
  },
  {
    what: 'notes under another switch may count or not',
    from: probed,
    sfz: regions(
      ...[
        'sw_last=24 seq_position=1',
        'sw_last=24 seq_position=2',
        'sw_last=25 seq_position=1',
      ].map((some) => `lokey=60 seq_length=2 ${some}`),
    ),
    steps: ['on 24', 'on 60 -> 0 1', 'on 25', 'on 60 -> 2', 'on 24', 'on 60 -> 0 1'],
  },
  {
    what: 'notes that chance lets out count, or the other way round',
    from: probed,
    sfz: regions(
      'hirand=.5 seq_length=2 seq_position=1',
      'hirand=.5 seq_length=2 seq_position=2',
      'hirand=0 seq_length=2 seq_position=1',
    ),
    steps: ['on 60 -> 0 1', 'on 60 -> 0 1'],
  },
];

checkRows(rows);
