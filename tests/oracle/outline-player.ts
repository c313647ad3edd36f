/**
 * A naive player of outlines: which zones a reel reaches, and under which doubts. A slow second
 * opinion: every zone is tried against every event, and every question about the past goes through
 * the cue again from its start. To be read beside the design, sections 6 and 8.
 *
 * What is where: `outline-data` what is read, `outline-zones` and `outline-keys` the zones and the keys
 * they play, `outline-starts` what may start a zone, `outline-conditions` and `outline-held` what has to
 * hold then. Fades, pedals and the histories of messages are those of the naive SFZ player.
 */
import { doubtBits, minimal, plain } from './doubts.ts';
import {
  controller,
  copyOf,
  isChosen,
  otherConditions,
  velocityFits,
  type OutlineCopy,
} from './outline-conditions.ts';
import type { OutlineData, OutlineDoubts, OutlineReel } from './outline-data.ts';
import { asInFile, startsOf, type OutlineStart } from './outline-starts.ts';
import { zonesOf, type OutlineLayer, type OutlineZone } from './outline-zones.ts';
import { cheapest, known, together, waysToHold, type Condition } from './sfz-conditions.ts';
import { heardInLife, type Life } from './sfz-life.ts';

const { pedalHeld, stretch, tail } = doubtBits;

type Cue = OutlineReel[number];

export interface OutlineUsage {
  readonly zone: string;
  /** Minimal doubt sets under which it is reached; none at all: never. */
  readonly reached: readonly OutlineDoubts[];
}

/** Plays a reel on one copy of an instrument. */
export function playOutline(outline: OutlineData, reel: OutlineReel): OutlineUsage[] {
  const copy = copyOf(outline, reel);
  return zonesOf(outline).map((zone) => {
    const sets = reel.flatMap((cue) =>
      startsOf(zone, cue).flatMap((start) => reachedBy(copy, zone, cue, start)),
    );
    return { zone: zone.name, reached: minimal(sets).map(inWords) };
  });
}

function reachedBy(copy: OutlineCopy, zone: OutlineZone, cue: Cue, start: OutlineStart): number[] {
  const { moment, key, doubts } = start;
  const answers = zone.answers(key).map((each) => each | doubts);
  if (answers.length === 0 || !velocityAllows(zone, start)) return [];
  const starts = minimal(
    start.ways.flatMap((way) =>
      waysToHold([...conditionsOf(copy, zone, start), ...way.conditions], moment).map(
        (each) => each.doubts | way.doubts,
      ),
    ),
  );
  if (starts.length === 0) return [];
  return together(together(answers, starts), heard(zone, cue, start));
}

function conditionsOf(copy: OutlineCopy, zone: OutlineZone, start: OutlineStart): Condition[] {
  const { articulation, layers } = zone;
  const fits = velocityFits(layers, articulation, start.velocity);
  return [
    ...isChosen(copy, articulation, start.channel),
    // Where a key is heard again nobody has struck it: by which velocity is not known.
    ...(start.why === 'return'
      ? fits.map((condition): Condition => [...condition, ...known([true, stretch])])
      : fits),
    ...(start.why === 'end'
      ? []
      : otherConditions(
          articulation,
          start.channel,
          start.struck,
          start.why === 'note',
          zone.silent,
        )),
  ];
}

/** What no reading lets pass need not be looked at further. */
function velocityAllows(zone: OutlineZone, start: OutlineStart): boolean {
  const { layers, articulation } = zone;
  if (start.why === 'return') return true;
  return velocityFits(layers, articulation, start.velocity).every((tests) =>
    tests.some(({ accepts }) => accepts(0)),
  );
}

/** The doubt sets under which the fades of a zone let it be heard at some time of its life. */
function heard({ layers }: OutlineZone, cue: Cue, start: OutlineStart): number[] {
  const fades = layers.flatMap((layer) =>
    layer.of === 'velocity' ? [] : [{ signal: controller(layer.of), heard: spansOf(layer) }],
  );
  // How long a key that comes back stays held is not asked: whatever its fades do, it may be heard.
  if (fades.length === 0 || start.why === 'return') return [plain];
  const life = lifeOf(cue, start);
  let values = [{ values: [] as ReturnType<typeof cheapest>, doubts: plain }];
  for (const { signal } of fades) {
    values = values.flatMap((chosen) =>
      cheapest(signal.at(start.moment)).map((one) => ({
        values: [...chosen.values, one],
        doubts: chosen.doubts | one.doubts,
      })),
    );
  }
  return minimal(
    values.flatMap((chosen) =>
      heardInLife(fades, chosen.values, start.moment, life).map((more) => chosen.doubts | more),
    ),
  );
}

/** Borders that are not printed: the even split plainly, and no fade at all. */
function spansOf({ values, printed }: OutlineLayer) {
  return [
    { span: values, doubts: plain },
    ...(printed ? [] : [{ span: [0, 127] as const, doubts: stretch }]),
  ];
}

/** A voice lasts as long as its note; after that it dies away for a time that nobody has said. */
function lifeOf(cue: Cue, { why, moment }: OutlineStart): Life {
  const { events } = cue;
  const toTheEnd = { index: events.length, doubts: plain, tail: -1 };
  if (why === 'end') return { ends: [toTheEnd], afterStart: tail };
  const notes = asInFile(cue).notes.filter(({ on }) => on === moment.index);
  const ends = notes.flatMap(({ releases, keyUp }) => {
    const release = releases[0]!.value;
    if (release !== null) return [{ index: release, doubts: plain, tail: Infinity }];
    if (keyUp === null) return [toTheEnd];
    return [
      { index: keyUp, doubts: plain, tail: -1 },
      { ...toTheEnd, doubts: pedalHeld },
    ];
  });
  return { ends, afterStart: plain };
}

const words: readonly (readonly [number, string])[] = [
  [doubtBits.noSwitch, 'no-switch'],
  [doubtBits.order, 'order'],
  [doubtBits.pedalHeld, 'pedal-held'],
  [doubtBits.smoothing, 'smoothing'],
  [doubtBits.startState, 'start-state'],
  [doubtBits.stretch, 'stretch'],
  [doubtBits.tail, 'tail'],
];

/** A doubt set in words, in alphabetical order. */
function inWords(doubts: number): string[] {
  return words.filter(([bit]) => (doubts & bit) !== 0).map(([, word]) => word);
}
