import { checkRows, documented, probed, regions, sfizz, type Row } from './playing.ts';

/**
 * What regions stop in each other. It shortens what sounds and never keeps a region from starting;
 * the one thing it can start is the release of what it cuts.
 */
const synth = sfizz('SynthT');
const polyphony = sfizz('PolyphonyT');

const rows: readonly Row[] = [
  {
    what: 'two groups that cut each other both start',
    from: synth,
    sfz: regions('key=60 group=1 off_by=2', 'key=62 group=2 off_by=1'),
    steps: ['on 60 -> 0', 'on 62 -> 1', 'on 60 -> 0'],
  },
  {
    what: 'negative numbers are groups',
    from: synth,
    sfz: regions(
      'key=60 group=-1 off_by=-2',
      'key=62 group=-2 off_by=-1',
      'key=64 group=-2 end=-1',
    ),
    steps: ['on 60 -> 0', 'on 62 -> 1', 'on 64 -> ~2'],
  },
  {
    what: 'group 0 is no group: what makes no sound there stops nothing',
    from: documented,
    sfz: regions('key=60 end=-1', 'key=60 end=-1 group=0', 'key=62 off_by=0'),
    steps: ['on 60', 'on 62 -> 2'],
  },
  {
    what: 'a group that cuts itself starts on every note',
    from: synth,
    sfz: regions('lokey=60 hikey=62 group=1 off_by=1'),
    steps: ['on 60 -> 0', 'on 61 -> 0', 'on 61 -> 0'],
  },
  {
    what: 'a region that a controller starts cuts too, with or without sound',
    from: synth,
    sfz: regions(
      'key=60 off_by=2',
      'hikey=-1 on_locc4=64 group=2',
      'hikey=-1 on_locc4=64 group=2 end=-1',
    ),
    steps: ['on 60 -> 0', 'cc 4 100 -> 1 ~2'],
  },
  {
    what: 'a release cuts too, with or without sound',
    from: synth,
    sfz: regions(
      'key=60 off_by=2',
      'key=62 trigger=release group=2',
      'key=62 trigger=release group=2 end=-1',
    ),
    steps: ['on 60 -> 0', 'on 62', 'off 62 -> 1 ~2'],
  },
  {
    // The first engine takes the cut for a note-off.
    what: 'a note that is cut by another releases in another engine',
    from: synth,
    sfz: regions('key=60 off_by=2', 'key=60 trigger=release', 'key=62 group=2'),
    steps: ['on 60 -> 0', 'on 62 -> 1? 2', 'off 60 -> 1'],
  },
  {
    what: 'a note that a controller cuts does not release',
    from: synth,
    sfz: regions('key=60 off_by=2', 'key=60 trigger=release', 'hikey=-1 on_locc4=64 group=2'),
    steps: ['on 60 -> 0', 'cc 4 100 -> 2', 'off 60 -> 1'],
  },
  {
    what: 'without off_by no note cuts another',
    from: synth,
    sfz: regions('key=60', 'key=60 trigger=release', 'key=62 group=2'),
    steps: ['on 60 -> 0', 'on 62 -> 2', 'off 60 -> 1'],
  },
  {
    what: 'polyphony, note_polyphony and note_selfmask steal voices that had started',
    from: polyphony,
    sfz: regions('polyphony=1', 'note_polyphony=1', 'note_polyphony=1 note_selfmask=off'),
    steps: ['on 60 -> 0 1 2', 'on 60 -> 0 1 2', 'on 62 -> 0 1 2'],
  },
  {
    what: 'a group of one voice starts every note',
    from: probed,
    sfz: `<group> group=1 polyphony=1\n${regions('key=60', 'key=62')}`,
    steps: ['on 60 -> 0', 'on 62 -> 1'],
  },
];

checkRows(rows);
