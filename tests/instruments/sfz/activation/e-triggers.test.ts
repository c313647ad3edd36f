import { checkRows, documented, probed, regions, sfizz, suite, type Row } from './playing.ts';

/** What a start listens to: keys going down or up, pedals, controllers. */
const triggers = sfizz('RegionTriggersT');
const synth = sfizz('SynthT');
const direct = sfizz('DirectRegionT');

const held: readonly Row[] = [
  {
    // The second engine has neither trigger: both always play.
    what: 'first when no other key is held, legato when one is',
    from: triggers,
    sfz: regions('trigger=first lokey=40 hikey=50', 'trigger=legato lokey=40 hikey=50'),
    steps: ['on 40 -> 0 1?', 'on 41 -> 0? 1', 'off 40', 'off 41', 'on 42 -> 0 1?'],
  },
  {
    what: 'a key outside the region is held too',
    from: triggers,
    sfz: regions('trigger=first lokey=40 hikey=50', 'trigger=legato lokey=40 hikey=50'),
    steps: ['on 80', 'on 40 -> 0? 1', 'off 80', 'on 41 -> 0? 1'],
  },
  {
    what: 'what the pedal holds is not a held key',
    from: probed,
    sfz: regions('trigger=first', 'trigger=legato'),
    steps: ['on 40 -> 0 1?', 'cc 64 127', 'off 40', 'on 41 -> 0 1?'],
  },
];

const released: readonly Row[] = [
  {
    what: 'a release plays at the note-off, with the velocity of the note-on',
    from: triggers,
    sfz: regions('key=60', 'key=60 trigger=release hivel=50', 'key=60 trigger=release lovel=51'),
    steps: ['on 60 30 -> 0', 'off 60 -> 1', 'on 60 100 -> 0', 'off 60 -> 2'],
  },
  {
    what: 'with the pedal down it waits for the pedal: each note by its own velocity',
    from: synth,
    sfz: regions(
      'lokey=60 hikey=62',
      'key=60 trigger=release hivel=50',
      'key=60 trigger=release lovel=51',
      'key=62 trigger=release lovel=51',
    ),
    steps: [
      ...['on 60 30 -> 0', 'on 62 100 -> 0', 'cc 64 127', 'off 60', 'off 62'],
      'cc 64 0 -> 1 3',
    ],
  },
  {
    // The second engine releases the earlier note of the key at the second note-on.
    what: 'notes of one key under the pedal are released one by one',
    from: synth,
    sfz: regions('key=60', 'key=60 trigger=release hivel=50', 'key=60 trigger=release lovel=51'),
    steps: [
      ...['on 60 30 -> 0', 'cc 64 127', 'off 60', 'on 60 100 -> 0 1?', 'off 60'],
      'cc 64 0 -> 1 2',
    ],
  },
  {
    what: 'the same when the pedal is down before the note',
    from: synth,
    sfz: regions('key=60', 'key=60 trigger=release'),
    steps: ['cc 64 127', 'on 60 -> 0', 'off 60', 'cc 64 0 -> 1'],
  },
  {
    // The second engine takes the word for attack.
    what: 'release_key plays when the key goes up, whatever the pedal does, without an attack',
    from: synth,
    sfz: regions('key=60 trigger=release_key'),
    steps: ['on 60 -> 0?', 'cc 64 127', 'off 60 -> 0', 'cc 64 0'],
  },
  {
    // Two engines want a voice that sounds; the first players of the format do not.
    what: 'a release without an attack is kept, with and without rt_dead',
    from: probed,
    sfz: regions('key=60 trigger=release', 'key=60 trigger=release rt_dead=on'),
    steps: ['on 60', 'off 60 -> 0 1'],
  },
  {
    // Whether it has ended depends on its length and on time: kept.
    what: 'a release is kept when the attack may have ended, with and without rt_dead',
    from: suite('03/01, 03/02'),
    sfz: regions('key=60 end=10', 'key=60 trigger=release', 'key=60 trigger=release rt_dead=on'),
    steps: ['on 60 -> 0', 'cc 20 1', 'cc 20 2', 'cc 20 3', 'off 60 -> 1 2'],
  },
  {
    what: 'a second note on a sounding key; the second engine releases the first one then',
    from: probed,
    sfz: regions('key=60', 'key=60 trigger=release'),
    steps: ['on 60 -> 0', 'on 60 -> 0 1?', 'off 60 -> 1', 'off 60 -> 1', 'off 60'],
  },
];

const pedals: readonly Row[] = [
  {
    what: 'sustain_cc names the pedal',
    from: direct,
    sfz: regions('key=60 trigger=release sustain_cc=54'),
    steps: [
      ...['cc 54 127', 'on 60', 'off 60', 'cc 54 0 -> 0'],
      ...['cc 64 127', 'on 60', 'off 60 -> 0', 'cc 64 0'],
    ],
  },
  {
    what: 'sustain_sw=off: the pedal does not hold it',
    from: direct,
    sfz: regions('key=60 trigger=release sustain_sw=off', 'key=60 trigger=release'),
    steps: ['cc 64 127', 'on 60', 'off 60 -> 0', 'cc 64 0 -> 1'],
  },
  {
    // Down from 64 on in the second engine, whatever is written.
    what: 'sustain_lo=63: value 1 is up, 63 is down but up in another engine',
    from: direct,
    sfz: regions('key=60 trigger=release sustain_lo=63'),
    steps: [
      ...['cc 64 1', 'on 60', 'off 60 -> 0'],
      ...['cc 64 63', 'on 60', 'off 60 -> 0?', 'cc 64 0 -> 0'],
    ],
  },
  {
    what: 'without sustain_lo value 1 is down, but up in another engine',
    from: documented,
    sfz: regions('key=60 trigger=release'),
    steps: ['cc 64 1', 'on 60', 'off 60 -> 0?', 'cc 64 0 -> 0'],
  },
  {
    what: 'value 64 is down in every engine',
    from: probed,
    sfz: regions('key=60 trigger=release'),
    steps: ['cc 64 64', 'on 60', 'off 60', 'cc 64 0 -> 0'],
  },
  {
    what: 'sostenuto holds only the keys that are down when it goes down',
    from: direct,
    sfz: regions('key=60 trigger=release', 'key=62 trigger=release'),
    steps: ['on 60', 'cc 66 127', 'on 62', 'off 60', 'off 62 -> 1', 'cc 66 0 -> 0'],
  },
  {
    what: 'with both pedals the last one that goes up lets go: sostenuto',
    from: direct,
    sfz: regions('key=60 trigger=release'),
    steps: ['on 60', 'cc 66 127', 'cc 64 127', 'off 60', 'cc 64 0', 'cc 66 0 -> 0'],
  },
  {
    what: 'with both pedals the last one that goes up lets go: sustain',
    from: direct,
    sfz: regions('key=60 trigger=release'),
    steps: ['on 60', 'cc 66 127', 'cc 64 127', 'off 60', 'cc 66 0', 'cc 64 0 -> 0'],
  },
  {
    what: 'sostenuto_cc, sostenuto_sw and sostenuto_lo likewise',
    from: direct,
    sfz: regions(
      'key=60 trigger=release sostenuto_cc=54',
      'key=60 trigger=release sostenuto_sw=off',
      'key=60 trigger=release sostenuto_cc=55 sostenuto_lo=63',
    ),
    steps: ['on 60', 'cc 54 127', 'cc 55 1', 'off 60 -> 1 2', 'cc 54 0 -> 0'],
  },
  {
    // Seen by its fade: only a voice that still sounds hears the controller move.
    what: 'a one-shot goes on after its note-off; another does not',
    from: synth,
    sfz: regions(
      'key=60 loop_mode=one_shot xfin_locc1=20 xfin_hicc1=60',
      'key=60 xfin_locc1=20 xfin_hicc1=60',
    ),
    steps: ['cc 1 0', 'on 60 -> 0', 'off 60', 'cc 1 100'],
  },
  {
    what: 'the pedal holds a voice; a one-shot needs none',
    from: synth,
    sfz: regions(
      'key=60 loop_mode=one_shot xfin_locc1=20 xfin_hicc1=60',
      'key=60 xfin_locc1=20 xfin_hicc1=60',
      'key=60 xfin_locc1=20 xfin_hicc1=60 sustain_sw=off',
    ),
    steps: ['cc 1 0', 'cc 64 127', 'on 60 -> 0 1', 'off 60', 'cc 1 100', 'cc 64 0'],
  },
  {
    what: 'what sounds under a pedal that is never lifted is in doubt',
    from: synth,
    sfz: regions('key=60 xfin_locc1=20 xfin_hicc1=60', 'key=60 trigger=release'),
    steps: [
      // The attack matters without a sound as well: some engines let nothing be released without it.
      ...['cc 1 0', 'cc 64 127', 'on 60 -> 0[pedal-held] ~0', 'off 60'],
      'cc 1 100 -> 1[pedal-held]',
    ],
    show: ['pedal-held'],
  },
];

const controllers: readonly Row[] = [
  {
    // Another engine then leaves out the keys, which starts less.
    what: 'a message inside on_locc to on_hicc starts it; keys still do',
    from: triggers,
    sfz: regions('key=60 on_locc47=64 on_hicc47=68'),
    steps: [
      ...['cc 47 63', 'cc 47 64 -> 0', 'cc 47 65 -> 0', 'cc 47 68 -> 0', 'cc 47 69', 'cc 48 65'],
      'on 60 -> 0',
    ],
  },
  {
    what: 'with key -1 it is started by the controller alone',
    from: triggers,
    sfz: regions('hikey=-1 on_locc47=64 on_hicc47=68', 'key=-1 on_locc47=64 on_hicc47=68'),
    steps: ['on 60', 'cc 47 64 -> 0 1', 'on 0'],
  },
  {
    what: 'a missing side is 0 or 127',
    from: triggers,
    sfz: regions('hikey=-1 on_locc64=64', 'hikey=-1 on_hicc64=10'),
    steps: [
      'cc 64 100 -> 0',
      'cc 64 127 -> 0',
      'cc 64 63',
      'cc 64 11',
      'cc 64 10 -> 1',
      'cc 64 0 -> 1',
    ],
  },
  {
    // The first engine starts it only when the value has changed.
    what: 'the same value again is kept too',
    from: probed,
    sfz: regions('hikey=-1 on_locc47=64 on_hicc47=68'),
    steps: ['cc 47 65 -> 0', 'cc 47 65 -> 0'],
  },
  {
    what: 'pedal noises and their like',
    from: suite('02/16'),
    sfz: regions(
      'hikey=-1 on_locc64=127 on_hicc64=127',
      'hikey=-1 on_locc64=0 on_hicc64=0',
      'hikey=-1 on_locc1=0 on_hicc1=0',
      'hikey=-1 on_locc1=127 on_hicc1=127',
    ),
    steps: ['cc 64 127 -> 0', 'cc 64 0 -> 1', 'cc 1 127 -> 3', 'cc 1 0 -> 2'],
  },
  {
    what: 'start_ and on_ are the same; lohdcc and hihdcc count from 0 to 1',
    from: triggers,
    sfz: regions(
      'hikey=-1 start_locc47=64 start_hicc47=76',
      'hikey=-1 on_lohdcc47=.5 on_hihdcc47=.6',
      'hikey=-1 start_lohdcc47=.5 start_hihdcc47=.6',
    ),
    steps: ['cc 47 63', 'cc 47 64 -> 0 1 2', 'cc 47 76 -> 0 1 2', 'cc 47 77'],
  },
  {
    what: 'channel pressure is 129; poly pressure is 130, on the keys of the region',
    from: triggers,
    sfz: regions('hikey=-1 start_locc129=60', 'lokey=50 hikey=60 on_locc130=60 lovel=127'),
    steps: ['at 59', 'at 80 -> 0', 'pat 60 59', 'pat 60 80 -> 1', 'pat 61 80'],
  },
  {
    what: 'chance decides there too: kept, but for an empty range',
    from: triggers,
    sfz: regions(
      'hikey=-1 on_locc47=64 lorand=.5',
      'hikey=-1 on_locc47=64 hirand=.5',
      'hikey=-1 on_locc47=64 lorand=.5 hirand=.5',
    ),
    steps: ['cc 47 100 -> 0 1'],
  },
  {
    what: 'other gates hold when a controller starts it; velocity does not',
    from: documented,
    sfz: regions('hikey=-1 lovel=127 on_locc47=64 locc1=64'),
    steps: ['cc 1 0', 'cc 47 100', 'cc 1 64', 'cc 47 100 -> 0'],
  },
  {
    what: 'stop_locc starts and prevents nothing',
    from: probed,
    sfz: regions('key=60 stop_locc47=64 stop_hicc47=127'),
    steps: ['cc 47 100', 'on 60 -> 0'],
  },
];

const time: readonly Row[] = [
  {
    what: 'lotimer and hitimer depend on time: kept',
    from: synth,
    sfz: regions('key=60 lotimer=.1', 'key=60 hitimer=.1', 'key=60 lotimer=.1 group=1'),
    steps: ['on 60 -> 0 1 2', 'on 60 -> 0 1 2'],
  },
  {
    what: 'a note-off inside the delay: it may have started, so it is kept',
    from: synth,
    sfz: regions('key=60 delay=.5', 'key=60 delay=.5 loop_mode=one_shot'),
    steps: ['on 60 -> 0 1', 'off 60'],
  },
  {
    what: 'end=-1 and end=0 make no sound; they matter where they stop something',
    from: probed,
    sfz: regions(
      'key=60 end=-1 group=1',
      'key=60 end=0 group=1',
      'key=60 end=-1',
      'key=60 end=-1 group=2',
      'key=62 off_by=1',
    ),
    steps: ['on 60 -> ~0 ~1', 'on 62 -> 4'],
  },
  {
    what: '*silence and no sample likewise; polyphony counts them too',
    from: documented,
    sfz:
      '<region> sample=*silence key=60 group=1\n<region> key=60 group=1\n' +
      '<region> sample=*silence key=60 note_polyphony=1\n' +
      '<region> sample=*silence key=60 polyphony=2\n<region> sample=*silence key=60\n' +
      regions('key=62 off_by=1'),
    steps: ['on 60 -> ~0 ~1 ~2 ~3', 'on 62 -> 5'],
  },
];

checkRows([...held, ...released, ...pedals, ...controllers, ...time]);
