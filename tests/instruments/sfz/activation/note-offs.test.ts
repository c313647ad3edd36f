import { checkRows, documented, probed, regions, sfizz, type Row } from './playing.ts';

/**
 * What note-offs and pedals may do that no file tells: in which order they come on a tick, what was
 * down before the cue, and how engines take a note-off. Rows from the documentation are what it leaves
 * open.
 */
const direct = sfizz('DirectRegionT');

const release = 'key=60 trigger=release';

/** Lets messages of controller 1 be read. */
const readsOne = ['hikey=-1 on_locc1=127'];

/** What comes at the end of the cue shows at its last event. */
const atTheEnd: readonly Row[] = [
  {
    what: 'a key that never goes up is released in the end',
    from: documented,
    sfz: regions(release, 'key=60 trigger=release_key', ...readsOne),
    steps: ['on 60 -> 1?', 'cc 1 0 -> 0[pedal-held] 1[pedal-held]'],
    show: ['pedal-held'],
  },
  {
    what: 'release_key asks for switches as they are then',
    from: documented,
    sfz: regions('key=60 trigger=release_key locc1=64', 'key=60 trigger=release_key hicc1=63'),
    steps: ['cc 1 0', 'on 60 -> 1?', 'cc 1 100 -> 0[pedal-held]'],
    show: ['pedal-held'],
  },
  {
    what: 'release_key does not wait for what only a pedal holds',
    from: documented,
    sfz: regions('key=60 trigger=release_key', ...readsOne),
    steps: ['on 60 -> 0?', 'cc 64 127', 'off 60 -> 0', 'cc 1 0'],
    show: ['pedal-held'],
  },
];

const downBefore: readonly Row[] = [
  {
    what: 'a pedal that the cue has not moved yet may be down: the release comes when it goes up',
    from: documented,
    sfz: regions(release),
    steps: ['on 60', 'off 60 -> 0', 'cc 64 127', 'cc 64 0 -> 0[start-state]'],
    show: ['start-state'],
  },
  {
    what: 'or at the end of the cue',
    from: documented,
    sfz: regions(release, ...readsOne),
    steps: ['on 60', 'off 60 -> 0', 'cc 64 127', 'cc 1 0 -> 0[start-state+pedal-held]'],
    show: ['start-state', 'pedal-held'],
  },
  {
    what: 'a pedal that the cue never touches was not down before',
    from: documented,
    sfz: regions(release, ...readsOne),
    steps: ['on 60', 'off 60 -> 0', 'cc 1 0'],
    show: ['start-state', 'pedal-held'],
  },
  {
    what: 'a pedal that the cue has moved is where it was put',
    from: documented,
    sfz: regions(release),
    steps: ['cc 64 0', 'on 60', 'off 60 -> 0', 'cc 64 127', 'cc 64 0'],
    show: ['start-state'],
  },
  {
    what: 'the other pedal holds only what was struck before it went down',
    from: documented,
    sfz: regions(`${release} sustain_sw=off`),
    steps: ['on 60', 'off 60 -> 0', 'cc 66 127', 'cc 66 0'],
    show: ['start-state'],
  },
  {
    what: 'a region lives longer under such a pedal',
    from: documented,
    sfz: regions('key=60 xfin_locc1=20 xfin_hicc1=60 ampeg_release=0.1', 'key=60 locc1=127'),
    steps: ['cc 1 0', 'on 60 -> 0[start-state]', 'off 60', 'on 61', 'cc 1 100', 'cc 64 0'],
    show: ['start-state'],
  },
];

const oneTick: readonly Row[] = [
  {
    what: 'the pedal goes down on the tick of the note-off, which may come behind it',
    from: documented,
    sfz: regions(release),
    steps: ['cc 64 0', 'on 60', 'off 60 -> 0', '+ cc 64 127', 'cc 64 0 -> 0[order]'],
  },
  {
    what: 'the pedal has gone down: the note-off may come before it',
    from: documented,
    sfz: regions(release),
    steps: ['cc 64 0', 'on 60', 'cc 64 127', '+ off 60 -> 0[order]', 'cc 64 0 -> 0'],
  },
  {
    what: 'the pedal goes up and down again: before, between or behind',
    from: documented,
    sfz: regions(release),
    steps: [
      ...['cc 64 127', 'on 60', 'cc 64 0', '+ off 60 -> 0', '+ cc 64 127'],
      'cc 64 0 -> 0[order]',
    ],
  },
  {
    what: 'the pedal goes up on the tick: released there in every order',
    from: documented,
    sfz: regions(release),
    steps: ['cc 64 127', 'on 60', 'off 60', '+ cc 64 0 -> 0', 'cc 64 127', 'cc 64 0'],
  },
  {
    what: 'the other pedal catches the key that may still be down',
    from: documented,
    sfz: regions(`${release} sustain_sw=off`),
    steps: ['on 60', 'off 60 -> 0', '+ cc 66 127', 'cc 66 0 -> 0[order]'],
  },
  {
    what: 'the other pedal may come too late for the key',
    from: documented,
    sfz: regions(`${release} sustain_sw=off`),
    steps: ['on 60', 'cc 66 127', '+ off 60 -> 0[order]', 'cc 66 0 -> 0'],
  },
  {
    what: 'a pedal on another tick leaves no doubt',
    from: documented,
    sfz: regions(release),
    steps: ['cc 64 0', 'on 60', 'off 60 -> 0', 'cc 64 127', 'cc 64 0'],
  },
];

const everyStrike: readonly Row[] = [
  {
    what: 'the first note-off may end every strike of its key',
    from: direct,
    sfz: regions('key=60 hivel=50 trigger=release', 'key=60 lovel=51 trigger=release'),
    steps: ['on 60 40', 'on 60 90 -> 0?', 'off 60 -> 0 1?', 'off 60 -> 1'],
  },
  {
    what: 'so it does where the other note-off is missing',
    from: direct,
    sfz: regions('key=60 lovel=51 trigger=release_key', ...readsOne),
    steps: ['on 60 40', 'on 60 90 -> 0?', 'off 60 -> 0?', 'cc 1 0 -> 0[pedal-held]'],
    show: ['pedal-held'],
  },
  {
    what: 'a pedal holds them all',
    from: direct,
    sfz: regions('key=60 hivel=50 trigger=release', 'key=60 lovel=51 trigger=release'),
    steps: ['cc 64 127', 'on 60 40', 'on 60 90 -> 0?', 'off 60', 'cc 64 0 -> 0 1?', 'off 60 -> 1'],
  },
  {
    what: 'another key stays down',
    from: direct,
    sfz: regions('key=60 trigger=release', 'key=62 trigger=release'),
    steps: ['on 60', 'on 62', 'off 60 -> 0', 'off 62 -> 1'],
  },
];

const cuts: readonly Row[] = [
  {
    // The engine fires the releases of what a group cuts.
    what: 'what a release starts cuts another note, which is released by it',
    from: sfizz('SynthT'),
    sfz: regions(
      'key=60 off_by=2',
      'key=60 trigger=release',
      'key=62',
      'key=62 trigger=release group=2',
    ),
    steps: ['on 60 -> 0', 'cc 1 0', 'on 62 -> 1? 2', 'off 62 -> 1? 3', 'off 60 -> 1'],
  },
  {
    what: 'a release whose group cuts nothing does not',
    from: probed,
    sfz: regions('key=60 off_by=2', 'key=60 trigger=release', 'key=62 trigger=release'),
    steps: ['on 62', 'on 60 -> 0 2?', 'off 62 -> 2', 'off 60 -> 1'],
  },
];

const silentAttacks: readonly Row[] = [
  {
    what: 'an attack that is never heard lets its release be played: it stays, without a sound',
    from: direct,
    sfz: regions('key=60 end=-1', 'lokey=50 hikey=70 trigger=release'),
    steps: ['on 60 -> ~0', 'off 60 -> 1'],
  },
  {
    what: 'so does one that a controller keeps silent',
    from: direct,
    sfz: regions('key=60 xfin_locc1=20 xfin_hicc1=60', 'key=60 trigger=release rt_dead=on'),
    steps: ['cc 1 0', 'on 60 -> ~0', 'off 60 -> 1'],
  },
  {
    what: 'other keys or velocities let nothing be played',
    from: direct,
    sfz: regions(
      'key=60 hivel=50 end=-1',
      'key=61 end=-1',
      'lokey=60 hikey=62 lovel=51 hivel=80 trigger=release_key',
      'key=61 hivel=50 end=-1',
      'key=61 lovel=80 end=-1',
    ),
    steps: ['on 60 40', 'on 61 60 -> 2? ~1', 'on 61 127 -> ~1 ~4'],
  },
  {
    what: 'nor does what a controller starts, nor a release itself',
    from: direct,
    sfz: regions(
      'hikey=-1 on_locc4=64 end=-1',
      'key=60 trigger=release end=-1',
      'key=60 trigger=release',
    ),
    steps: ['cc 4 100', 'on 60', 'off 60 -> 2'],
  },
];

checkRows([...silentAttacks, ...atTheEnd, ...downBefore, ...oneTick, ...everyStrike, ...cuts]);
