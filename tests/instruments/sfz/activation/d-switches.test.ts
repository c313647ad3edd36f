import { checkRows, documented, probed, regions, sfizz, suite, type Row } from './playing.ts';

/** Switches on the keyboard, and what notes before the note decide. */
const activation = sfizz('RegionActivationT');
const triggers = sfizz('RegionTriggersT');
const synth = sfizz('SynthT');

const latched: readonly Row[] = [
  {
    what: 'a switch holds until the next one; sw_default before any',
    from: synth,
    sfz:
      '<global> sw_lokey=40 sw_hikey=42 sw_default=40\n' +
      regions('sw_last=40 key=60', 'sw_last=41 key=62'),
    steps: ['on 60 -> 0', 'on 62', 'on 41', 'on 60', 'on 62 -> 1', 'on 40', 'on 60 -> 0'],
  },
  {
    // The second engine never switches without sw_lokey and sw_hikey, which starts less.
    what: 'without a range the keys that sw_last names are the switches',
    from: synth,
    sfz: regions('sw_last=40 key=60', 'sw_last=41 key=62'),
    steps: ['on 60', 'on 40', 'on 60 -> 0', 'on 42', 'on 60 -> 0', 'on 41', 'on 60', 'on 62 -> 1'],
  },
  {
    what: 'without sw_default nothing plays before a switch',
    from: suite('02/09'),
    sfz: regions('sw_last=40 key=60'),
    steps: ['on 60', 'on 40', 'on 60 -> 0'],
  },
  {
    what: 'a copy that never switches may have been switched by hand',
    from: suite('02/09'),
    sfz: regions('sw_last=40 key=60', 'sw_last=41 key=60', 'sw_last=41 key=61'),
    steps: ['on 60 -> 0[no-switch] 1[no-switch]'],
    show: ['start-state', 'no-switch'],
  },
  {
    what: 'what the copy switches to later it may have been switched to before',
    from: suite('02/09'),
    sfz: regions('sw_last=40 key=60', 'sw_last=41 key=60'),
    steps: ['on 60 -> 0[start-state]', 'on 40', 'on 60 -> 0'],
    show: ['start-state', 'no-switch'],
  },
  {
    what: 'sw_default=49, then a switch that is let go before the note',
    from: suite('02/10'),
    sfz: regions('sw_last=48', 'sw_last=49 sw_default=49', 'sw_last=50').replaceAll(
      'sw_last',
      'lokey=54 sw_last',
    ),
    steps: ['on 60 -> 1', 'off 60', 'on 50', 'off 50', 'on 60 -> 2'],
  },
  {
    what: 'sw_default outside all switches chooses nothing',
    from: activation,
    sfz: `<global> sw_default=30\n${regions('sw_last=40 key=60', 'sw_last=41 key=60')}`,
    steps: ['on 60', 'on 40', 'on 60 -> 0'],
  },
  {
    what: 'of several sw_default the last in the file counts, at a region',
    from: activation,
    sfz:
      '<global> sw_default=40\n' + regions('sw_last=40 key=60', 'sw_last=41 sw_default=41 key=60'),
    steps: ['on 60 -> 1'],
  },
  {
    what: 'of several sw_default the last in the file counts, at a group',
    from: activation,
    sfz:
      regions('sw_last=41 sw_default=41 key=60') +
      `<group> sw_default=40\n${regions('sw_last=40 key=60')}`,
    steps: ['on 60 -> 1'],
  },
  {
    // 48 + 12 - 1 = 59. In the probe the second engine did not move switches.
    what: 'offsets move sw_default and sw_last; in another engine they do not',
    from: activation,
    sfz:
      '<control> octave_offset=1 note_offset=-1\n<global> sw_default=48\n' +
      regions('sw_last=48 key=49', 'sw_last=50 key=51'),
    steps: ['on 60 -> 0', 'on 62', 'on 61', 'on 62 -> 1', 'on 60 -> 0?'],
  },
  {
    what: 'offsets of switches alone count everywhere',
    from: documented,
    sfz:
      '<control> sw_octave_offset=-1 sw_note_offset=1\n<global> sw_default=51\n' +
      regions('sw_last=51 key=60', 'sw_last=52 key=60'),
    steps: ['on 60 -> 0', 'on 52', 'on 60 -> 0', 'on 41', 'on 60 -> 1', 'on 40', 'on 60 -> 0'],
  },
  {
    // The first engine has one switch whatever the range.
    what: 'sw_last outside its own range chooses in another engine only',
    from: probed,
    sfz:
      '<global> sw_lokey=40 sw_hikey=42 sw_default=40\n' +
      regions('sw_last=40 key=60', 'sw_last=50 key=60'),
    steps: ['on 60 -> 0', 'on 50', 'on 60 -> 0 1?'],
  },
  {
    // "Last key pressed in the range", read literally; both open engines keep the switch.
    what: 'a key of the range that no region names lets go of the switch; engines keep it',
    from: probed,
    sfz:
      '<global> sw_lokey=40 sw_hikey=45 sw_default=40\n' +
      regions('sw_last=40 key=60', 'sw_last=41 key=60'),
    steps: ['on 60 -> 0', 'on 43', 'on 60 -> 0?', 'on 41', 'on 60 -> 1'],
  },
  {
    // With one switch for all, as in the first engine, key 30 puts region 0 out: that starts less. No
    // region names key 21, so there are players in which region 0 stays on.
    what: 'two ranges are two switches',
    from: probed,
    sfz: regions(
      'sw_lokey=20 sw_hikey=21 sw_last=20 key=60',
      'sw_lokey=30 sw_hikey=31 sw_last=30 key=60',
    ),
    steps: ['on 20', 'on 60 -> 0', 'on 30', 'on 60 -> 0 1', 'on 21', 'on 60 -> 0? 1'],
  },
  {
    // Only region 0 plays after key 31: its own switch stands, as does the one of all keys named.
    what: 'two ranges, and a key of the second that no region names',
    from: probed,
    sfz: regions(
      'sw_lokey=20 sw_hikey=21 sw_last=20 key=60',
      'sw_lokey=30 sw_hikey=31 sw_last=30 key=60',
    ),
    steps: ['on 20', 'on 30', 'on 31', 'on 60 -> 0 1?'],
  },
  {
    // The one without a range does not hear key 20, the one with it does not hear key 30.
    what: 'a switch with a range and one without are two',
    from: documented,
    sfz: regions('sw_lokey=20 sw_hikey=21 sw_last=20 key=60', 'sw_last=30 key=60'),
    steps: ['on 30', 'on 60 -> 1', 'on 20', 'on 60 -> 0 1'],
  },
  {
    // The press and the note are one tick: what stood before it is what order leaves open.
    what: 'a switch among the keys of its region plays it, as switched by itself',
    from: probed,
    sfz: regions('sw_last=40 lokey=30 hikey=70', 'sw_last=41 lokey=30 hikey=70'),
    steps: ['on 40 -> 0', 'on 41 -> 0[order] 1', 'on 60 -> 1'],
  },
  {
    what: 'a range of switches',
    from: activation,
    sfz: regions('sw_lolast=57 sw_hilast=59 key=70', 'sw_lolast=60 sw_hilast=62 key=71'),
    steps: [
      ...['on 57', 'on 70 -> 0', 'on 58', 'on 70 -> 0', 'on 59', 'on 70 -> 0'],
      ...['on 60', 'on 70', 'on 61', 'on 70', 'on 62', 'on 70', 'on 71 -> 1'],
    ],
  },
  {
    what: 'a range of switches beats sw_last',
    from: activation,
    sfz: regions('sw_last=40 sw_lolast=57 sw_hilast=59 key=70'),
    steps: ['on 40', 'on 70', 'on 58', 'on 70 -> 0'],
  },
  {
    what: 'sw_default inside a range of switches',
    from: activation,
    sfz: `<global> sw_default=58\n${regions('sw_lolast=57 sw_hilast=59 key=70', 'sw_last=60 key=70')}`,
    steps: ['on 70 -> 0', 'on 60', 'on 70 -> 1'],
  },
];

const held: readonly Row[] = [
  {
    what: 'sw_down plays while its key is held',
    from: activation,
    sfz: regions('sw_down=40 key=60'),
    steps: ['on 60', 'on 40', 'on 60 -> 0', 'off 40', 'on 60'],
  },
  {
    what: 'the own key of a note is held too',
    from: documented,
    sfz: regions('sw_down=60 lokey=50'),
    steps: ['on 59', 'on 60 -> 0', 'off 60', 'on 59'],
  },
  {
    // The first player of the format wanted it inside the range, if one is given.
    what: 'sw_down outside the range plays in another engine',
    from: probed,
    sfz: regions('sw_lokey=50 sw_hikey=55 sw_down=40 key=60'),
    steps: ['on 60', 'on 40', 'on 60 -> 0?', 'off 40', 'on 60'],
  },
  {
    what: 'sw_up plays while its key is not held',
    from: activation,
    sfz: regions('sw_up=40 key=60'),
    steps: ['on 60 -> 0', 'on 40', 'on 60', 'off 40', 'on 60 -> 0'],
  },
  {
    what: 'several keys held are several articulations',
    from: suite('02/07'),
    sfz: regions(...[48, 49, 50, 51, 52].map((key) => `sw_down=${String(key)} lokey=60`)),
    steps: [
      ...['on 48', 'on 60 -> 0', 'on 49', 'on 61 -> 0 1', 'off 48', 'on 62 -> 1', 'on 52'],
      'on 63 -> 1 4',
    ],
  },
  {
    what: 'sw_down moves with the offset; in another engine it does not',
    from: probed,
    sfz: `<control> note_offset=1\n${regions('sw_down=40 key=60')}`,
    steps: ['on 41', 'on 61 -> 0', 'off 41', 'on 40', 'on 61 -> 0?', 'on 60'],
  },
  {
    what: 'a switch that holds and one that is held: both must be there',
    from: documented,
    sfz: regions('sw_last=40 sw_down=30 key=60'),
    steps: ['on 40', 'on 60', 'on 30', 'on 60 -> 0', 'off 30', 'on 60'],
  },
];

const noKey: readonly Row[] = [
  {
    what: 'a switch that is no key is as if it were not there, for some engine',
    from: documented,
    sfz: regions(
      ...[
        'sw_last=200 key=60',
        'sw_last=-1 key=60',
        'sw_down=128 key=60',
        'sw_previous=300 key=60',
      ],
      ...['sw_lolast=130 sw_hilast=140 key=60', 'sw_lolast=100 sw_hilast=140 key=60'],
      'sw_last=41 key=60',
    ),
    steps: ['on 60 -> 0? 1? 2? 3? 4? 5?', 'on 100', 'on 60 -> 0? 1? 2? 3? 4? 5'],
  },
  {
    what: 'a range from below the keys does not take in that none was pressed yet',
    from: documented,
    sfz: regions('sw_lolast=-1 sw_hilast=26 key=60', 'sw_previous=-1 key=60'),
    steps: ['on 60 -> 0? 1?', 'on 26', 'on 60 -> 0 1?'],
  },
  {
    what: 'sw_up of no key is always so',
    from: documented,
    sfz: regions('sw_up=200 key=60'),
    steps: ['on 60 -> 0'],
  },
  {
    what: 'offsets may move a switch off the keys, or on to them',
    from: documented,
    sfz:
      `<control> note_offset=10\n${regions('sw_down=120 key=50', 'sw_previous=120 key=50')}` +
      `<control> note_offset=-10\n${regions('sw_down=130 key=70', 'sw_last=-1 key=70')}`,
    steps: ['on 60 -> 0? 1? 3?', 'on 120', 'on 60 -> 0? 1? 2 3?'],
  },
  {
    what: 'text that is no key leaves what was inherited, or nothing at all',
    from: documented,
    sfz: `<group> sw_last=40\n${regions('sw_last=foo key=60', 'key=60')}`,
    steps: ['on 60 -> 0?', 'on 40', 'on 60 -> 0 1'],
  },
];

const previous: readonly Row[] = [
  {
    what: 'sw_previous is the note before, on any key; none before the first',
    from: activation,
    sfz: regions('sw_previous=60 lokey=50 hikey=70'),
    steps: ['on 51', 'on 60', 'on 51 -> 0', 'on 60', 'on 60 -> 0'],
  },
  {
    what: 'sw_previous moves with the offset; in another engine it does not',
    from: probed,
    sfz: `<control> note_offset=1\n${regions('sw_previous=60 key=70')}`,
    steps: ['on 61', 'on 71 -> 0', 'on 60', 'on 71 -> 0?', 'on 71'],
  },
  {
    what: 'sw_vel=previous looks at the velocity of the note before',
    from: triggers,
    sfz: regions('sw_vel=previous lovel=63'),
    steps: ['on 60 127', 'on 60 10 -> 0', 'on 60 127', 'on 60 127 -> 0'],
  },
  {
    what: 'before the first note of a cue that may have been any',
    from: documented,
    sfz: regions('sw_vel=previous lovel=63', 'sw_vel=previous hivel=20'),
    steps: ['on 60 40 -> 0[start-state] 1[start-state]', 'on 60 10', 'on 60 127 -> 1'],
    show: ['start-state'],
  },
  {
    what: 'a release reads the switch when the key goes up',
    from: suite('03/08'),
    sfz:
      '<global> sw_default=0 lokey=48 hikey=72\n' +
      regions('sw_last=0', 'sw_last=1', 'sw_last=0 trigger=release', 'sw_last=1 trigger=release'),
    steps: ['on 60 -> 0', 'on 1', 'off 60 -> 3'],
  },
  {
    // The second engine has neither trigger: both always play.
    what: 'a held switch is no held note for first and legato',
    from: probed,
    sfz: regions(
      'trigger=first lokey=50 hikey=70',
      'trigger=legato lokey=50 hikey=70',
      'sw_last=20 lokey=80 hikey=90',
    ),
    steps: ['on 20', 'on 60 -> 0 1?', 'on 62 -> 0? 1'],
  },
];

checkRows([...latched, ...held, ...noKey, ...previous]);
