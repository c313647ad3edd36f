/**
 * Random opcodes for property tests, in small families: keys 58 to 62, switches 24 to 27, and values
 * at and beside the few that the random cues send.
 */
import fc from 'fast-check';
import type { SfzOpcode } from './sfz-data.ts';

export type Opcodes = fc.Arbitrary<SfzOpcode[]>;

const keys = fc.constantFrom('58', '59', '60', '61', '62', 'c4', 'd#4', 'bb3');
const switches = fc.constantFrom('24', '25', '26', '27');
const noKeys = fc.constantFrom('200', '128', '-1', '-3', 'x');
const velocities = fc.constantFrom('1', '40', '41', '64', '100', '127');
const values = fc.constantFrom('0', '1', '20', '63', '64', '100', '127');
const gateControllers = fc.constantFrom(1, 1, 2, 20, 20, 7, 11, 64);
const fadeControllers = fc.constantFrom(1, 1, 2, 7, 11, 20);

/** Opcodes of fixed names, each with a value. */
function named(names: readonly string[], ...given: readonly fc.Arbitrary<string>[]): Opcodes {
  return fc
    .tuple(...given)
    .map((texts) => names.map((name, i): SfzOpcode => [name, texts[i] ?? '']));
}

/** A lower limit, an upper one, or both, mostly the right way round. */
function limited(lo: string, hi: string, given: fc.Arbitrary<string>): Opcodes {
  const both = fc.tuple(given, given).map(([a, b]): SfzOpcode[] => {
    const turned = Number(a) > Number(b);
    return [
      [lo, turned ? b : a],
      [hi, turned ? a : b],
    ];
  });
  return oneOf(
    [4, both],
    [2, named([lo], given)],
    [2, named([hi], given)],
    [1, named([lo, hi], given, given)],
  );
}

function oneOf(...families: readonly (readonly [weight: number, arbitrary: Opcodes])[]): Opcodes {
  return fc.oneof(...families.map(([weight, arbitrary]) => ({ weight, arbitrary })));
}

const text = (...texts: readonly string[]) => fc.constantFrom(...texts);

/** Mostly wide enough for some key of the cues. */
export const keyRanges: Opcodes = oneOf(
  [4, fc.constant([])],
  [5, named(['key'], keys)],
  [5, limited('lokey', 'hikey', keys)],
  [1, named(['key', 'lokey'], keys, keys)],
  [1, named(['lokey', 'key'], keys, keys)],
  [1, named([`hikey`], text('-1', '300', '60junk', 'h4'))],
  [1, named([`lokey`], text('-1', '-5', '60.9', '200'))],
  [1, named(['key'], text('-1', '300'))],
);

const velocityGates: Opcodes = oneOf(
  [6, limited('lovel', 'hivel', velocities)],
  [1, named(['lovel'], text('-3', '200', '0'))],
  [1, named(['hivel'], text('300', '0'))],
  [3, limited('lovel', 'hivel', velocities).map((gate) => [...gate, ['sw_vel', 'previous']])],
);

const controllerGates: Opcodes = oneOf(
  [8, gateControllers.chain((number) => limited(`locc${number}`, `hicc${number}`, values))],
  [
    1,
    gateControllers.chain((number) =>
      limited(`locc${number}`, `hicc${number}`, text('-1', '30', '128', '200')),
    ),
  ],
  [
    2,
    gateControllers.chain((number) =>
      limited(`lohdcc${number}`, `hihdcc${number}`, text('0', '.5', '0.504', '1')),
    ),
  ],
  [
    2,
    fc
      .constantFrom(128, 129, 130, 131)
      .chain((number) => limited(`locc${number}`, `hicc${number}`, values)),
  ],
);

const otherGates: Opcodes = oneOf(
  [2, limited('lobend', 'hibend', text('-8192', '-1', '0', '1', '100', '8192'))],
  [2, limited('lochanaft', 'hichanaft', values)],
  [2, limited('lopolyaft', 'hipolyaft', values)],
  [2, limited('loprog', 'hiprog', text('0', '1', '4', '5', '127', '-1', '200'))],
  [1, limited('lobpm', 'hibpm', text('60', '99.5', '120', '140'))],
  [1, limited('lochan', 'hichan', text('1', '5', '6', '16', '20'))],
);

const switchGates: Opcodes = oneOf(
  [4, named(['sw_last'], switches)],
  [1, named(['sw_last', 'sw_default'], switches, switches)],
  [2, named(['sw_last', 'sw_lokey', 'sw_hikey'], switches, text('24', '25'), text('26', '27'))],
  [1, named(['sw_last', 'sw_lokey'], switches, text('24', '26'))],
  [2, limited('sw_lolast', 'sw_hilast', switches)],
  [
    1,
    named(
      ['sw_lolast', 'sw_hilast', 'sw_lokey', 'sw_hikey'],
      ...[text('24', '25'), switches],
      ...[text('24'), text('26', '27')],
    ),
  ],
  [2, named(['sw_down'], fc.oneof(switches, keys))],
  [1, named(['sw_down', 'sw_lokey', 'sw_hikey'], switches, text('24', '25'), text('25', '26'))],
  [2, named(['sw_up'], fc.oneof(switches, keys))],
  [1, named(['sw_up', 'sw_hikey'], switches, text('25', '26'))],
  [2, named(['sw_previous'], fc.oneof(switches, keys))],
  [1, named(['sw_default'], switches)],
  [
    3,
    text('sw_last', 'sw_lolast', 'sw_hilast', 'sw_down', 'sw_up', 'sw_previous').chain((name) =>
      named([name], noKeys),
    ),
  ],
  [1, named(['sw_lolast', 'sw_hilast'], fc.oneof(switches, noKeys), text('26', '200'))],
);

const triggers = named(
  ['trigger'],
  text('attack', 'release', 'release', 'release', 'release_key', 'first', 'legato'),
);

const controllerStarts: Opcodes = oneOf(
  [4, gateControllers.chain((number) => limited(`on_locc${number}`, `on_hicc${number}`, values))],
  [1, named(['on_lohdcc20'], text('.5', '.2'))],
  [
    2,
    fc
      .constantFrom(128, 129, 130, 131)
      .chain((number) => limited(`on_locc${number}`, `on_hicc${number}`, values)),
  ],
  [1, named(['on_locc1', 'hikey'], values, text('-1'))],
);

const places: Opcodes = oneOf(
  [3, named(['seq_length', 'seq_position'], text('0', '1', '2', '3'), text('0', '1', '2', '3'))],
  [2, limited('lorand', 'hirand', text('0', '.5', '1'))],
  [2, limited('lorand', 'hirand', text('0', '.5', '1', '-1', '2', '127'))],
);

const chokes: Opcodes = oneOf(
  [2, named(['group'], text('0', '1', '1', '-3'))],
  [3, named(['off_by'], text('0', '1', '1', '-3'))],
  [4, named(['group', 'end'], text('1', '1', '-3'), text('-1', '0'))],
  [2, named(['polyphony'], text('1'))],
  [1, named(['note_polyphony', 'sample'], text('1'), text('*silence', '', 'a.wav'))],
  [1, named(['end'], text('-1', '0', '9'))],
  [1, named(['sample'], text('*sine', '*silence', ''))],
);

/** Attacks that are not heard, of any kind. */
const silences = named(
  ['end', 'trigger'],
  text('-1', '-1', '0'),
  text('attack', 'first', 'legato'),
);

const pedals: Opcodes = oneOf(
  [2, named(['sustain_lo'], text('1', '20', '63.5', '64', '100'))],
  [1, named(['sostenuto_lo'], text('1', '64', '100'))],
  [1, named(['sustain_cc'], text('20'))],
  [1, named(['sostenuto_cc'], text('2'))],
  [1, named(['sustain_sw'], text('on', 'off'))],
  [1, named(['sostenuto_sw'], text('off'))],
);

/** What key and velocity make silent. */
const noteFades: Opcodes = oneOf(
  [2, limited('xfin_lokey', 'xfin_hikey', fc.constantFrom('58', '60', '61', 'c4'))],
  [2, limited('xfout_lokey', 'xfout_hikey', fc.constantFrom('58', '60', '62', 'c4'))],
  [2, limited('xfin_lovel', 'xfin_hivel', velocities)],
  [2, limited('xfout_lovel', 'xfout_hivel', velocities)],
  [1, named(['amp_velcurve_64'], text('0', '1'))],
  [1, named(['amp_velcurve_40', 'amp_velcurve_100'], text('0', '1'), text('0', '.5', '1'))],
  [1, named(['amp_veltrack'], text('100', '-100', '0', '50'))],
  [1, named(['amp_veltrack', 'amp_velcurve_100'], text('-100', '100', '20'), text('0', '1'))],
  [1, named(['amp_velcurve_64', 'amp_veltrack_oncc1'], text('0'), text('5'))],
);

const controllerFades: Opcodes = oneOf(
  [
    4,
    fadeControllers.chain((number) => limited(`xfin_locc${number}`, `xfin_hicc${number}`, values)),
  ],
  [
    4,
    fadeControllers.chain((number) =>
      limited(`xfout_locc${number}`, `xfout_hicc${number}`, values),
    ),
  ],
  [
    3,
    fadeControllers.chain((number) => named([`amplitude_oncc${number}`], text('100', '-5', '0'))),
  ],
  [
    3,
    fadeControllers.chain((number) =>
      named(
        [`amplitude_oncc${number}`, `amplitude_curvecc${number}`],
        text('100'),
        text('0', '1', '2', '4', '6', '7', '8', '99'),
      ),
    ),
  ],
  [1, named(['xfin_locc131'], values)],
);

const lives: Opcodes = oneOf(
  [2, named(['ampeg_release'], text('0', '.05', '.1', '.2'))],
  [1, named(['ampeg_release_oncc1'], text('.1', '-1'))],
  [2, named(['loop_mode'], text('one_shot', 'no_loop', 'loop_continuous', 'loop_sustain'))],
  [1, named(['count'], text('0', '2'))],
);

const tails = named(['ampeg_release', 'sustain_sw'], text('.1', '.2', '.2'), text('on', 'off'));

const livingFades: Opcodes = fc
  .tuple(controllerFades, oneOf([1, lives], [2, tails]))
  .map((families) => families.flat());

const fadeFamilies = [
  [5, controllerFades],
  [8, livingFades],
  [1, lives],
] as const;

/** One family beside keys. `fades: false` leaves out all that a controller makes silent. */
export function conditionFamily(fades: boolean): Opcodes {
  return oneOf(
    [4, velocityGates],
    [6, controllerGates],
    [4, otherGates],
    [7, switchGates],
    [5, triggers],
    [2, controllerStarts],
    [2, places],
    [5, chokes],
    [2, silences],
    [2, pedals],
    [2, noteFades],
    [1, named(['delay'], text('.5'))],
    ...(fades ? fadeFamilies : []),
  );
}

export const controls: Opcodes = oneOf(
  [8, fc.constant([])],
  [3, fc.constantFrom(1, 2, 7, 20, 64).chain((number) => named([`set_cc${number}`], values))],
  [
    3,
    fc
      .constantFrom(1, 20, 20, 64, 66)
      .chain((number) => named([`set_hdcc${number}`], text('.5', '1', '.1', '.504'))),
  ],
  [1, named(['note_offset'], text('-1', '1', '0'))],
  [1, named(['octave_offset', 'note_offset'], text('1'), text('-11', '-12'))],
  [1, named(['sw_note_offset'], text('-1', '1'))],
);
