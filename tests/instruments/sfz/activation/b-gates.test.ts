import { checkRows, documented, probed, regions, sfizz, suite, type Row } from './playing.ts';

/** Controllers, bend, pressure, program, tempo and channel. */
const activation = sfizz('RegionActivationT');

const rows: readonly Row[] = [
  {
    what: 'locc and hicc belong to the range; the last value counts; other controllers do not',
    from: activation,
    sfz: regions('locc4=56 hicc4=59'),
    steps: [
      ...['cc 4 0', 'on 60', 'cc 4 56', 'on 60 -> 0', 'cc 4 57', 'on 60 -> 0'],
      ...['cc 4 59', 'on 60 -> 0', 'cc 4 43', 'on 60', 'cc 4 65', 'on 60', 'cc 5 57', 'on 60'],
    ],
  },
  {
    what: 'two controllers must both be in range',
    from: activation,
    sfz: regions('locc4=56 hicc4=59 locc54=18 hicc54=27'),
    steps: [
      ...['cc 4 57', 'cc 54 0', 'on 60', 'cc 54 19', 'on 60 -> 0', 'cc 4 20', 'on 60'],
      ...['cc 4 59', 'on 60 -> 0', 'cc 54 28', 'on 60'],
    ],
  },
  {
    what: 'two controllers, one at its initial value',
    from: suite('02/02'),
    sfz: regions('locc73=64 hicc73=90 locc1=0 hicc1=30'),
    steps: [
      ...['on 60', 'cc 73 64', 'on 60 -> 0', 'cc 1 31', 'on 60'],
      ...['cc 1 30', 'on 60 -> 0', 'cc 73 91', 'on 60'],
    ],
  },
  {
    what: 'locc and lohdcc are two conditions',
    from: documented,
    sfz: regions('locc4=56 hicc4=59 lohdcc4=.45 hihdcc4=1'),
    steps: ['cc 4 57', 'on 60', 'cc 4 58', 'on 60 -> 0', 'cc 4 60', 'on 60'],
  },
  {
    // The second engine has no bend gates: there it is always open.
    what: 'lobend and hibend belong to the range; another engine does not look',
    from: activation,
    sfz: regions('lobend=56 hibend=243'),
    steps: [
      ...['pb 0', 'on 60 -> 0?', 'pb 56', 'on 60 -> 0', 'pb 243', 'on 60 -> 0'],
      ...['pb 245', 'on 60 -> 0?'],
    ],
  },
  {
    what: 'bend above and below the centre',
    from: suite('02/03'),
    sfz: regions('lobend=1 hibend=8192', 'lobend=-8192 hibend=-1'),
    steps: [
      ...['pb 0', 'on 60 -> 0? 1?', 'pb 100', 'on 60 -> 0 1?', 'pb -100', 'on 60 -> 0? 1'],
      ...['pb 8191', 'on 60 -> 0 1?', 'pb -8192', 'on 60 -> 0? 1'],
    ],
  },
  {
    what: 'channel pressure: both ends belong to the range',
    from: activation,
    sfz: regions('lochanaft=56 hichanaft=68'),
    steps: [
      ...['on 60', 'at 0', 'on 60', 'at 56', 'on 60 -> 0', 'at 68', 'on 60 -> 0'],
      ...['at 98', 'on 60'],
    ],
  },
  {
    // The first players of the format did not look at the key.
    what: 'poly pressure is that of the own key; in another engine that of any',
    from: activation,
    sfz: regions('lokey=40 hikey=41 lopolyaft=50 hipolyaft=100'),
    steps: ['on 40', 'pat 40 80', 'on 40 -> 0', 'on 41 -> 0?'],
  },
  {
    what: 'poly pressure of a release is read at the note-off',
    from: activation,
    sfz: regions('key=50 lopolyaft=50 hipolyaft=100 trigger=release'),
    steps: ['on 50', 'off 50', 'on 50', 'pat 50 80', 'off 50 -> 0'],
  },
  {
    what: 'program 0 before any; limits out of range are no limits',
    from: activation,
    sfz: regions('hiprog=2', 'loprog=1 hiprog=126', 'loprog=-1 hiprog=200'),
    steps: [
      ...['on 60 -> 0 2', 'pc 5', 'on 60 -> 1 2', 'pc 127', 'on 60 -> 2'],
      ...['pc 2', 'on 61 -> 0 1 2'],
    ],
  },
  {
    // The first engine does not follow tempo changes: for it any tempo may be in force.
    what: 'tempo at the note; in another engine the one from before',
    from: activation,
    sfz: regions('lobpm=56 hibpm=68'),
    steps: [
      ...['bpm 30', 'on 60 -> 0?', 'bpm 66.7', 'on 60 -> 0', 'bpm 59.4', 'on 60 -> 0'],
      ...['bpm 54.5', 'on 60 -> 0?'],
    ],
  },
  {
    what: 'tempo: both ends belong to the range, 120 before any',
    from: documented,
    sfz: regions('lobpm=60 hibpm=120', 'hibpm=119.9'),
    steps: [
      ...['on 60 -> 0 1?', 'bpm 60', 'on 60 -> 0 1', 'bpm 59.9', 'on 60 -> 0? 1'],
      ...['bpm 121', 'on 60 -> 0? 1?'],
    ],
  },
  {
    // Neither open engine looks at channels: there, all play.
    what: 'channels 1-5 and 6-10',
    from: suite('02/01'),
    sfz: regions('lochan=1 hichan=5', 'lochan=6 hichan=10'),
    steps: [
      ...['on 60 ch 1 -> 0 1?', 'on 60 ch 5 -> 0 1?', 'on 60 ch 6 -> 0? 1'],
      ...['on 60 ch 10 -> 0? 1', 'on 60 ch 11 -> 0? 1?', 'on 60 ch 16 -> 0? 1?'],
    ],
  },
  {
    what: 'controllers at power-on: 7 at 100, 10 in the middle, 11 at 127, others 0',
    from: probed,
    sfz: regions('locc1=1', 'locc7=100', 'locc11=127', 'locc10=64 hicc10=64', 'hicc1=0'),
    steps: ['on 60 -> 1 2 3 4'],
  },
  {
    // The second engine starts with every controller at 0.
    what: 'a controller that nobody has set may be 0 as well',
    from: probed,
    sfz: regions('hicc7=0', 'hicc10=0', 'hicc11=0', 'locc7=1 hicc7=99'),
    steps: [
      'on 60 -> 0[start-state] 1[start-state] 2[start-state]',
      'cc 7 90',
      'on 61 -> 1[start-state] 2[start-state] 3',
    ],
    show: ['start-state'],
  },
  {
    what: 'set_cc says what a controller is before its first message',
    from: activation,
    sfz: `<control> set_cc1=64\n${regions('locc1=1')}`,
    steps: ['on 60 -> 0', 'cc 1 0', 'on 60'],
  },
  {
    what: 'set_hdcc the same from 0 to 1; the power-on value is left as a doubt',
    from: documented,
    sfz: `<control> set_hdcc1=.5 set_cc7=20\n${regions('locc1=64 hicc1=64', 'hicc1=0', 'locc7=100', 'locc7=20 hicc7=20')}`,
    steps: ['on 60 -> 0 1[start-state] 2[start-state] 3'],
    show: ['start-state'],
  },
  {
    what: 'set_hdcc between two steps: either of them, and no other; the last one written counts',
    from: documented,
    sfz: `<control> set_hdcc1=.5 set_realcc2=.1 set_hdcc3=.5 set_cc3=40\n${regions(
      ...['locc1=64 hicc1=64', 'locc1=63 hicc1=63', 'locc1=62 hicc1=62', 'locc1=65'],
      ...['locc2=12 hicc2=12', 'locc2=13 hicc2=13', 'locc3=63 hicc3=64', 'locc3=40 hicc3=40'],
    )}`,
    steps: ['on 60 -> 0 1? 4? 5 7'],
  },
  {
    what: 'so it does for a pedal',
    from: documented,
    sfz: `<control> set_hdcc64=.003\n${regions('key=60 trigger=release')}`,
    steps: ['on 60', 'off 60 -> 0', 'cc 64 127', 'cc 64 0 -> 0?'],
  },
  {
    // Plain: RP-015 sets controller 1 to 0. The second engine leaves it alone.
    what: 'reset of all controllers: controller 1',
    from: probed,
    sfz: regions('locc1=64', 'hicc1=0'),
    steps: ['cc 1 100', 'on 60 -> 0', 'cc 121 0', 'on 60 -> 0? 1'],
  },
  {
    // Plain: RP-015 leaves controller 4 alone. The first engine goes back to what it was at first.
    what: 'reset of all controllers: controller 4',
    from: probed,
    sfz: `<control> set_cc4=10\n${regions('locc4=64', 'locc4=10 hicc4=10', 'hicc4=0')}`,
    steps: ['cc 4 100', 'on 60 -> 0', 'cc 121 0', 'on 60 -> 0 1?'],
  },
  {
    // The first engine ends the voices, and nothing is released later.
    what: 'all notes off (123) lets every key go, as note-offs would',
    from: probed,
    sfz: regions('key=60 trigger=release'),
    steps: ['on 60', 'cc 123 0 -> 0', 'off 60'],
  },
  {
    what: 'all sound off (120) leaves nothing to release, but for some',
    from: probed,
    sfz: regions('key=60 trigger=release'),
    steps: ['on 60', 'cc 120 0 -> 0?', 'off 60'],
  },
  {
    // (4708 + 8192) * 127 / 16383 = 100. Extended numbers may not be looked at.
    what: 'bend as controller 128, from 0 to 127',
    from: documented,
    sfz: regions('locc128=100'),
    steps: ['pb 4707', 'on 60 -> 0?', 'pb 4708', 'on 60 -> 0'],
  },
  {
    // 131 is the velocity in some players; one engine never opens, another does not look.
    what: 'extended controllers from 131 on can not be decided: kept',
    from: probed,
    sfz: regions('locc131=64', 'locc140=1 hicc140=2'),
    steps: ['on 60 100 -> 0 1', 'on 60 1 -> 0 1'],
  },
];

checkRows(rows);
