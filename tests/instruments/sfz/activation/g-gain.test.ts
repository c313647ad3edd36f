import { checkRows, documented, probed, regions, sfizz, suite, type Row } from './playing.ts';

/**
 * Gains. How loud a region is does not matter here, only whether it is above nothing: the shape of a
 * curve (power or gain) changes no row. Of the table two lines are about no start at all and have no
 * test: the gain that rt_decay leaves (its region is kept, below) and the frame at which offset begins.
 */
const values = sfizz('RegionValueComputationsT');

const fixed: readonly Row[] = [
  {
    what: 'xfin by key: silent at the lower end, heard above it',
    from: values,
    sfz: regions('xfin_lokey=1 xfin_hikey=5', 'xfin_lokey=1 xfin_hikey=5 xf_keycurve=gain'),
    steps: ['on 0', 'on 1', 'on 2 -> 0 1', 'on 5 -> 0 1', 'on 6 -> 0 1'],
  },
  {
    what: 'xfout by key: heard below the upper end, silent at it',
    from: values,
    sfz: regions('xfout_lokey=51 xfout_hikey=55', 'xfout_lokey=51 xfout_hikey=55 xf_keycurve=gain'),
    steps: ['on 50 -> 0 1', 'on 51 -> 0 1', 'on 54 -> 0 1', 'on 55', 'on 56'],
  },
  {
    // The bounds move with the key: 41 and 45; in some engines they do not (part D).
    what: 'xfin by key with an offset',
    from: sfizz('ParsingT'),
    sfz: `<control> note_offset=1\n${regions('lokey=30 hikey=80 xfin_lokey=40 xfin_hikey=44')}`,
    steps: ['on 41 -> 0?', 'on 42 -> 0', 'on 81 -> 0', 'on 82'],
  },
  {
    what: 'xfin by velocity: 20 never, 21 plays',
    from: values,
    sfz: regions('xfin_lovel=20 xfin_hivel=24 amp_veltrack=0'),
    steps: ['on 60 19', 'on 60 20', 'on 60 21 -> 0', 'on 60 24 -> 0', 'on 60 25 -> 0'],
  },
  {
    what: 'xfout by velocity: 54 plays, 55 never',
    from: values,
    sfz: regions('xfout_lovel=51 xfout_hivel=55 amp_veltrack=0'),
    steps: ['on 60 50 -> 0', 'on 60 54 -> 0', 'on 60 55', 'on 60 56'],
  },
  {
    what: 'a fade of no width by velocity: the louder side',
    from: suite('14/13'),
    sfz: regions(
      'xfin_lovel=64 xfin_hivel=64',
      'xfout_lovel=64 xfout_hivel=64',
      'xfin_lovel=127 xfin_hivel=127',
    ),
    steps: ['on 60 63 -> 1', 'on 60 64 -> 0 1', 'on 60 65 -> 0', 'on 60 127 -> 0 2'],
  },
  {
    // It does start: what it stops, it stops.
    what: 'at gain zero it starts all the same, and may stop another',
    from: probed,
    sfz: regions(
      'key=60 xfin_lovel=20 xfin_hivel=24 group=1',
      'key=60 xfin_lovel=20 xfin_hivel=24',
      'key=62 off_by=1',
    ),
    steps: ['on 60 20 -> ~0', 'on 60 21 -> 0 1'],
  },
  {
    what: 'the usual velocity curve silences nothing',
    from: values,
    sfz: regions('key=60', 'key=60 amp_veltrack=0', 'key=60 amp_veltrack=-50'),
    steps: ['on 60 1 -> 0 1 2', 'on 60 127 -> 0 1 2'],
  },
  {
    // 1 - (v/127)^2 is 0 at 127; the design keeps what another player may play there.
    what: 'amp_veltrack=-100: velocity 127 is silent, but for another engine',
    from: values,
    sfz: regions('amp_veltrack=-100'),
    steps: ['on 60 1 -> 0', 'on 60 126 -> 0', 'on 60 127 -> 0?'],
  },
  {
    what: 'amp_velcurve_64=1 alone: from 0 up to 1 and stays there',
    from: values,
    sfz: regions('amp_velcurve_64=1'),
    steps: ['on 60 1 -> 0', 'on 60 64 -> 0', 'on 60 127 -> 0'],
  },
  {
    what: 'a velocity curve at 0 silences its velocities',
    from: values,
    sfz: regions(
      'amp_velcurve_64=0',
      'amp_velcurve_64=0 amp_veltrack=50',
      'amp_velcurve_64=1 amp_velcurve_127=0',
    ),
    steps: ['on 60 1 -> 1 2', 'on 60 64 -> 1 2', 'on 60 65 -> 0 1 2', 'on 60 127 -> 0 1'],
  },
];

const followed: readonly Row[] = [
  {
    what: 'xfin by controller: 20 never, 21 plays',
    from: values,
    sfz: regions('xfin_locc24=20 xfin_hicc24=24'),
    steps: ['cc 24 19', 'cc 24 20', 'on 60', 'off 60', 'cc 24 21', 'on 60 -> 0', 'off 60'],
  },
  {
    what: 'xfout by controller: 23 plays, 24 never',
    from: values,
    sfz: regions('xfout_locc24=20 xfout_hicc24=24'),
    steps: [
      ...['cc 24 127', 'cc 24 24', 'on 60', 'off 60', 'cc 24 23', 'on 60 -> 0', 'off 60'],
      'cc 24 24',
    ],
  },
  {
    // Down in two messages: a player that smooths the way from 10 to 0 hears nothing at key 62.
    what: 'a controller fades the voice in while it lives',
    from: values,
    sfz: regions('key=60 xfin_locc24=20 xfin_hicc24=24', 'key=62 xfin_locc24=20 xfin_hicc24=24'),
    steps: [
      ...['cc 24 0', 'on 60 -> 0', 'cc 24 30', 'cc 24 10', 'cc 24 0', 'off 60'],
      ...['on 62', 'off 62'],
    ],
  },
  {
    what: 'a controller passes everything between two values: one instant is enough',
    from: documented,
    sfz: regions('xfin_locc24=20 xfin_hicc24=24 xfout_locc24=30 xfout_hicc24=34'),
    steps: ['cc 24 0', 'on 60 -> 0', 'cc 24 127', 'off 60'],
  },
  {
    // The first engine renders the third one at full volume for every value.
    what: 'a fade of no width by controller: the louder side',
    from: suite('14/13'),
    sfz: regions(
      'xfin_locc24=0 xfin_hicc24=0',
      'xfin_locc24=127 xfin_hicc24=127',
      'xfout_locc24=0 xfout_hicc24=0',
      'xfout_locc24=127 xfout_hicc24=127',
    ),
    steps: [
      ...['cc 24 0', 'on 60 -> 0 2 3', 'off 60', 'cc 24 63', 'cc 24 64', 'on 60 -> 0 2? 3'],
      ...['off 60', 'cc 24 126', 'on 60 -> 0 2? 3', 'off 60', 'cc 24 127', 'on 60 -> 0 1 2? 3'],
      'off 60',
    ],
  },
  {
    // How far below full volume is a matter of gain.
    what: 'rt_decay makes a release fainter and never silent: kept',
    from: values,
    sfz: regions('key=60 trigger=release rt_decay=10'),
    steps: ['on 60', 'cc 20 0', 'off 60 -> 0'],
  },
  {
    what: 'a random delay: kept',
    from: values,
    sfz: regions('key=60 delay=10 delay_random=10'),
    steps: ['on 60 -> 0', 'off 60'],
  },
];

checkRows([...fixed, ...followed]);
