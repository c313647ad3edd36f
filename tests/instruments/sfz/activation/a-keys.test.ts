import { checkRows, documented, probed, regions, sfizz, suite, type Row } from './playing.ts';

/** Keys, velocities and random ranges. */
const triggers = sfizz('RegionTriggersT');

const rows: readonly Row[] = [
  {
    what: 'key=40 plays on its key alone, when it goes down',
    from: triggers,
    sfz: regions('key=40'),
    steps: ['on 40 -> 0', 'off 40', 'on 41', 'cc 1 64'],
  },
  {
    what: 'lokey and hikey belong to the range',
    from: triggers,
    sfz: regions('lokey=40 hikey=42'),
    steps: ['on 39', 'on 40 -> 0', 'on 41 -> 0', 'on 42 -> 0', 'on 43'],
  },
  {
    what: 'lovel and hivel belong to the range',
    from: triggers,
    sfz: regions('lovel=60 hivel=70 key=40'),
    steps: ['on 40 59', 'on 40 60 -> 0', 'on 40 64 -> 0', 'on 40 70 -> 0', 'on 40 71'],
  },
  {
    // Velocities between two whole numbers, which that engine has, do not occur in a MIDI file.
    what: 'hivel=64 and lovel=65 leave no gap and do not overlap',
    from: triggers,
    sfz: regions('hivel=64', 'lovel=65'),
    steps: ['on 60 1 -> 0', 'on 60 64 -> 0', 'on 60 65 -> 1', 'on 60 127 -> 1'],
  },
  {
    what: 'lovel=0 and lovel=1 are the same: velocity 0 is a note-off',
    from: triggers,
    sfz: regions('key=60 lovel=0', 'key=60 lovel=1', 'key=60 trigger=release'),
    steps: ['on 60 1 -> 0 1', 'on 60 0 -> 2', 'off 60'],
  },
  {
    what: 'a random range that is not empty is kept: the number drawn is not known',
    from: triggers,
    sfz: regions('lorand=.35 hirand=.40'),
    steps: ['on 60 -> 0', 'on 60 -> 0'],
  },
  {
    what: 'lorand without hirand reaches up to 1',
    from: triggers,
    sfz: regions('lorand=.35', 'lorand=1', 'lorand=1 hirand=1'),
    steps: ['on 60 -> 0 1 2'],
  },
  {
    what: 'an empty random range never plays: lo <= r < hi',
    from: probed,
    sfz: regions('lorand=0 hirand=0', 'lorand=.5 hirand=.5', 'lorand=.6 hirand=.5'),
    steps: ['on 60', 'on 60'],
  },
  {
    // One number a note for all regions, or one for each region: both are kept either way.
    what: 'both halves of a random pair are kept on every note',
    from: probed,
    sfz: regions('hirand=.5', 'lorand=.5'),
    steps: ['on 60 -> 0 1', 'on 60 -> 0 1'],
  },
  {
    what: 'a limit that can never be drawn is as if it were not there, for some engine',
    from: documented,
    sfz: regions('lorand=1.5', 'hirand=-1', 'lorand=.5 hirand=-1', 'lorand=2 hirand=0', 'hirand=5'),
    steps: ['on 60 -> 0? 1? 2? 4'],
  },
  {
    what: 'ranges the wrong way round never play',
    from: probed,
    sfz: regions('lokey=70 hikey=60', 'lovel=70 hivel=60'),
    steps: ['on 60 60', 'on 65 65', 'on 70 70', 'on 65 64'],
  },
  {
    what: 'key -1 means no note',
    from: triggers,
    sfz: regions('hikey=-1', 'key=-1', 'lokey=-1 hikey=-1'),
    steps: ['on 0', 'on 60', 'on 127'],
  },
  {
    what: 'a later key takes key -1 back',
    from: triggers,
    sfz: regions('hikey=-1 hikey=40', 'key=-1 key=40'),
    steps: ['on 39 -> 0', 'on 40 -> 0 1', 'on 41'],
  },
  {
    // One engine takes the value for "no note", which starts less: nothing is added for it.
    what: 'hikey=300 is held to 127',
    from: probed,
    sfz: regions('hikey=300', 'lokey=60 hikey=300'),
    steps: ['on 59 -> 0', 'on 60 -> 0 1', 'on 127 -> 0 1'],
  },
  {
    what: 'lokey=-5: held to 0; another engine leaves it out, which is 0 too',
    from: probed,
    sfz: regions('lokey=-5 hikey=40'),
    steps: ['on 0 -> 0', 'on 40 -> 0', 'on 41'],
  },
  {
    what: 'hivel=0 leaves no velocity, hivel=200 is held to 127',
    from: documented,
    sfz: regions('hivel=0', 'lovel=127 hivel=200'),
    steps: ['on 60 1', 'on 60 127 -> 1'],
  },
  {
    what: 'key=d#3 is 51',
    from: suite('00/06'),
    sfz: regions('key=d#3'),
    steps: ['on 50', 'on 51 -> 0', 'on 52'],
  },
  {
    what: 'key sets both ends where it stands, later opcodes move them',
    from: probed,
    sfz: regions('lokey=50 key=60', 'key=60 lokey=50'),
    steps: ['on 49', 'on 50 -> 1', 'on 55 -> 1', 'on 60 -> 0 1', 'on 61'],
  },
  {
    what: 'the same from a group to its regions',
    from: probed,
    sfz: `<group> key=60\n${regions('lokey=50')}` + `<group> lokey=50\n${regions('key=60')}`,
    steps: ['on 49', 'on 50 -> 0', 'on 55 -> 0', 'on 60 -> 0 1', 'on 61'],
  },
];

checkRows(rows);
