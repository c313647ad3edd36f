import { byCodePoint } from '../terms/code-point-order.ts';
import type { Finding } from '../terms/finding.ts';
import { articulationWords } from './capture-rule.ts';
import { collectTracks, type PlayedCue } from './collect-tracks.ts';
import type { Draft } from './draft.ts';
import { draftGroup } from './draft-group.ts';
import { draftOutlines } from './draft-outlines.ts';
import type { DraftRule } from './draft-rule.ts';
import { groupTracks, type TrackGroup } from './group-tracks.ts';
import { makeRules } from './make-rules.ts';
import { capture } from './name-patterns.ts';
import { orderRules } from './order-rules.ts';
import type { OutlinesWanted } from './outlines-wanted.ts';
import { cuesSection, head, middleC, rigSection } from './draft-sections.ts';
import { seenComments, instrumentLines } from './write-instrument.ts';
import { ruleLines } from './write-rules.ts';
import { quoted } from './yaml-text.ts';

/** The words that `{art}` captures, and the articulations they are drafted to mean. */
const capturedWords = (rules: readonly DraftRule[]): readonly (readonly [string, string])[] => {
  const words = new Map<string, string>();
  for (const { articulation, tracks } of rules) {
    if (articulation !== capture) continue;
    for (const track of tracks) {
      const word = articulationWords(track);
      if (word !== null) words.set(word, track.said.articulation?.name ?? word);
    }
  }
  return [...words].sort(([a], [b]) => byCodePoint(a, b));
};

const namesSection = (rules: readonly DraftRule[]): readonly string[] => {
  const words = capturedWords(rules);
  return words.length === 0
    ? []
    : [
        '# Words of track names, and the articulations they mean. Write the articulations as your',
        '# instruments call them: keepset inspect shows that.',
        'names:',
        ...words.map(([word, name]) => `  ${quoted(word)}: ${name}`),
      ];
};

const filesToName = [
  '# One instrument for tracks of similar names. Put the real file in each place marked "fill in"',
  '# (.sf2 or .sfz, from this file\'s folder; a preset: { file: bank.sf2, preset: "0:48" }; a table that',
  '# describes a closed instrument: { zones: tables/horns.csv, middle-c: C3 }).',
];

const outlinesToFillIn = [
  '# One instrument for tracks of similar names, each with an outline: what the manual of a library says',
  "# whose files can't be read. Fill in the outlines. Where there is a file that can be read, put it",
  '# instead: { file: instruments/horns.sfz }, or a preset: { file: bank.sf2, preset: "0:48" }.',
];

const instrumentsSection = (
  groups: readonly TrackGroup[],
  outlines: OutlinesWanted | null,
): readonly string[] => {
  const lines = groups.flatMap((group) =>
    group.instrument === null
      ? []
      : instrumentLines(group.instrument, seenComments(group), 2, outlines),
  );
  const start = outlines === null ? filesToName : outlinesToFillIn;
  return lines.length === 0 ? [] : [...start, 'instruments:', ...lines];
};

/** A click has no instrument where its comments could stand. */
const commentsOf = ({ group, comments }: DraftRule): readonly string[] =>
  group.instrument === null ? [...seenComments(group), ...comments] : comments;

const routesSection = (rules: readonly DraftRule[]): readonly string[] =>
  rules.length === 0
    ? ['# No track of these cues plays a note: there is nothing to route.']
    : [
        '# Which track plays which instrument. The first rule that matches a track counts; each track',
        '# plays a copy of its own.',
        'routes:',
        ...rules.flatMap((rule) => ruleLines(rule, 2, commentsOf(rule))),
      ];

/**
 * Drafts a template from what cues play.
 *
 * @param patterns the cues as the template names them, from its own folder
 * @param outlines where to name outlines for the instruments; null: name files
 */
export const draftTemplate = (
  cues: readonly PlayedCue[],
  patterns: readonly string[],
  findings: readonly Finding[] = [],
  outlines: OutlinesWanted | null = null,
): Draft => {
  const groups = groupTracks(collectTracks(cues));
  const rules = orderRules(groups.flatMap((group) => makeRules(group, firstDraft)));
  const sections = [
    head(cues),
    cuesSection(patterns),
    middleC,
    rigSection,
    namesSection(rules),
    instrumentsSection(groups, outlines),
    routesSection(rules),
  ];
  return {
    schema: 'keepset/draft@1',
    groups: groups.map(draftGroup),
    added: groups.reduce((sum, group) => sum + group.tracks.length, 0),
    text: sections
      .filter((lines) => lines.length > 0)
      .map((lines) => `${lines.join('\n')}\n`)
      .join('\n'),
    outlines: draftOutlines(groups, outlines),
    findings,
  };
};

const firstDraft = { captures: true, nameAll: false } as const;
