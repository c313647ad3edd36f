import type { Why, WhyDropped, WhyKept } from '../keep/why/why.ts';
import { toRanges } from '../terms/range.ts';
import { shownName } from './cell.ts';
import { formatBytes, plural } from './format.ts';
import { led } from './indent.ts';
import type { Look } from './look.ts';
import { nameList } from './name-list.ts';
import { paragraph, type Paragraph } from './paragraph.ts';
import { answersText, cuesText, nearestText, placeText, reasonTexts } from './why-words.ts';

/** More than this nobody reads one by one. */
const mostGroups = 10;
const mostCues = 6;
const mostCopies = 4;
const mostSamples = 2;

/** Zones of which the same is to be said: takes of a note, microphones. At least one. */
type Alike<Zone> = readonly [Zone, ...Zone[]];

const alike = <Zone extends WhyKept | WhyDropped>(
  zones: readonly Zone[],
): readonly Alike<Zone>[] => {
  const groups = new Map<string, [Zone, ...Zone[]]>();
  for (const zone of zones) {
    const text = JSON.stringify({ ...zone, zone: 0, key: null, samples: [], bytes: 0 });
    const group = groups.get(text);
    if (group === undefined) groups.set(text, [zone]);
    else group.push(zone);
  }
  return [...groups.values()];
};

const numbers = (zones: Alike<WhyKept | WhyDropped>, look: Look): string => {
  const [first, ...others] = zones;
  if (others.length === 0) {
    const { key } = first;
    return `Zone ${String(first.zone)}${key === null ? '' : ` "${shownName(key, look)}"`}`;
  }
  const ranges = toRanges(zones.map(({ zone }) => zone)).map(([lo, hi]) =>
    lo === hi ? String(lo) : `${String(lo)}-${String(hi)}`,
  );
  return `Zones ${nameList(ranges, look, mostCues)} (${String(zones.length)})`;
};

/** What zones are, in a sentence: the verdict in front. */
const heading = (
  zones: Alike<WhyKept | WhyDropped>,
  verdict: string,
  paint: (text: string) => string,
  look: Look,
): Paragraph => {
  const [first] = zones;
  const answers = answersText(first, look);
  const samples = [...new Set(zones.flatMap((zone) => zone.samples))];
  return [
    { text: `${numbers(zones, look)}: ${verdict}.`, paint },
    `${[
      [nameList(first.articulationNames, look, 2), answers]
        .filter((text) => text !== '')
        .join(', '),
      ...(samples.length === 0 ? [] : [nameList(samples, look, mostSamples)]),
      formatBytes(zones.reduce((sum, { bytes }) => sum + bytes, 0)),
    ].join('; ')}.`,
  ];
};

const points = (sentences: readonly string[], look: Look): readonly string[] =>
  sentences.flatMap((sentence) => led('- ', [sentence], look));

const keptSection = (zones: Alike<WhyKept>, look: Look): readonly string[] => {
  const [zone] = zones;
  const { copies, cues, witnesses } = zone;
  return [
    ...paragraph(heading(zones, 'kept', look.colors.bold, look), look.width),
    ...points(
      [
        ...reasonTexts(zone),
        ...(copies === null || copies.length === 0
          ? []
          : [`In ${nameList(copies, look, mostCopies)}.`]),
        ...(Object.keys(cues).length === 0
          ? []
          : [cuesText(zone, look.details === true ? Infinity : mostCues, look)]),
        ...witnesses.map((place, i) => `${i === 0 ? 'First' : 'Then'}: ${placeText(place, look)}.`),
      ],
      look,
    ),
  ];
};

const droppedSection = (zones: Alike<WhyDropped>, look: Look): readonly string[] => [
  ...paragraph(heading(zones, 'dropped', look.colors.yellow, look), look.width),
  ...points(nearSentences(zones[0], look), look),
];

const nearSentences = (zone: WhyDropped, look: Look): readonly string[] => {
  const { nearest, articulationNames, articulationNotes } = zone;
  const never = `${articulationNames.length === 1 ? 'its articulation is' : 'its articulations are'} never played`;
  if (nearest === null) return ['What came nearest to needing it is not known: no cue was played.'];
  if (nearest.length === 0) {
    return [
      articulationNotes === 0
        ? `Nothing came near: ${never}, and more would have to change as well.`
        : 'Nothing came near: no note would reach it with one thing changed.',
    ];
  }
  return nearest.map((near, i) => {
    const text = nearestText(near, zone, look);
    return i === 0 ? `Nearest: ${text}` : `Also: ${text}`;
  });
};

/** Zones that were asked for: those that went first, as they are what surprises. */
export const whyZones = ({ kept, dropped }: Why, look: Look): readonly (readonly string[])[] => {
  const all = [
    ...alike(dropped).map((zones) => () => droppedSection(zones, look)),
    ...alike(kept).map((zones) => () => keptSection(zones, look)),
  ];
  const shown = look.details === true ? all : all.slice(0, mostGroups);
  const rest = all.length - shown.length;
  return [
    ...shown.map((section) => section()),
    ...(rest === 0
      ? []
      : [
          paragraph(
            [
              `${plural(rest, 'more group')} of zones of which the same is to be said: --verbose shows all of them.`,
            ],
            look.width,
          ),
        ]),
  ];
};
