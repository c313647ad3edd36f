/** A point on which open documentation and engines of the format do not agree. */
export interface Ambiguity {
  readonly number: number;
  readonly name: string;
  /**
   * `engine`: the other readings stand beside the plain one under that doubt. `covered`: the plain
   * reading starts all that any of them does. `not applicable`: it does not bear on what starts.
   */
  readonly handling: 'engine' | 'covered' | 'not applicable';
  readonly reason: string;
}

/** All of them (found by comparing the open documentation, sfizz 1.2.3 and liquidsfz 0.4.1). */
export const ambiguities: readonly Ambiguity[] = [
  {
    number: 1,
    name: 'what advances a sequence',
    handling: 'covered',
    reason: 'counters outlive a cue, so every turn there is may come; position 0 is engine',
  },
  {
    number: 2,
    name: 'where switches are watched',
    handling: 'engine',
    reason: 'one switch for all, keys no region names, offsets: each a test on a signal of its own',
  },
  {
    number: 3,
    name: 'what a release needs',
    handling: 'engine',
    reason: 'no sounding note is asked for; a key struck again, or a choke, may release as well',
  },
  {
    number: 4,
    name: 'controller starts beside keys, and repeated values',
    handling: 'covered',
    reason: 'keys go on starting the region, and every message in the range does',
  },
  {
    number: 5,
    name: 'controllers before any message',
    handling: 'covered',
    reason: 'doubt start-state holds 0 and the power-on value beside what the file sets',
  },
  {
    number: 6,
    name: 'poly pressure by key',
    handling: 'engine',
    reason: 'the last pressure of any key is a test on a second signal',
  },
  {
    number: 7,
    name: 'one draw for a note or for each region',
    handling: 'covered',
    reason: 'whatever can be drawn counts',
  },
  {
    number: 8,
    name: 'default_path after a new control header',
    handling: 'not applicable',
    reason: 'it bears on where a sample lies: the other folder is looked into, with a finding',
  },
  {
    number: 9,
    name: 'from where on a pedal is down',
    handling: 'engine',
    reason: 'a second reading of the pedals has 64',
  },
  {
    number: 10,
    name: 'values out of range',
    handling: 'engine',
    reason: 'held to the range; dropped, so that the default stands, by others',
  },
  {
    number: 11,
    name: 'channels',
    handling: 'engine',
    reason: 'open engines do not look at lochan and hichan',
  },
  {
    number: 12,
    name: 'controllers that stand for other messages',
    handling: 'engine',
    reason: 'bend and pressures may be ignored; from 131 on nothing is asked, so all is kept',
  },
  {
    number: 13,
    name: 'crossfades with both limits equal',
    handling: 'engine',
    reason: 'the louder reading; a fade out at 0 may be none',
  },
  {
    number: 14,
    name: 'CC120, CC121 and CC123',
    handling: 'engine',
    reason: 'RP-015; values kept or set back to the start; what all sound off would release',
  },
  {
    number: 15,
    name: 'lines that begin with a single slash',
    handling: 'not applicable',
    reason: 'the first version of the format calls them comments; it bears on reading the text',
  },
];
