import type { PartNotes } from '../playback/note-usage.ts';
import type { Finding } from '../terms/finding.ts';
import type { Addition } from './addition.ts';
import { appendToYaml } from './append-to-yaml.ts';
import { articulationWords } from './capture-rule.ts';
import { collectTracks, type PlayedCue, type Wanted } from './collect-tracks.ts';
import { describeNames, describeSeen } from './describe-group.ts';
import { draftGroup } from './draft-group.ts';
import { draftOutlines } from './draft-outlines.ts';
import type { DraftRule } from './draft-rule.ts';
import type { Draft } from './draft.ts';
import { groupKey, groupTracks, type TrackGroup } from './group-tracks.ts';
import { makeRules } from './make-rules.ts';
import { escaped } from './name-patterns.ts';
import { orderRules } from './order-rules.ts';
import type { OutlinesWanted } from './outlines-wanted.ts';
import { see } from './see.ts';
import { instrumentLines, placeholder, seenComments, type Belonging } from './write-instrument.ts';
import { ruleInFlow, ruleLines } from './write-rules.ts';

/** What the template that is there says, and does with the cues. */
export interface Standing {
  /** True for the parts that no rule takes. */
  readonly isUnmapped: Wanted;
  /** The instruments that a part plays; none when a rule ignores it or none takes it. */
  readonly instrumentsOf: (part: PartNotes) => readonly string[];
  /** Ids of its instruments. */
  readonly ids: readonly string[];
  /** Instruments for which rules name the articulation. */
  readonly named: ReadonlySet<string>;
  /** Words of track names -> articulations; keys folded. */
  readonly names: ReadonlyMap<string, string>;
  /** What a new instrument must say of machine and player. */
  readonly belonging: Belonging;
}

/** The instrument that all tracks of a group go to, by the group's key. */
const homesIn = (
  cues: readonly PlayedCue[],
  { instrumentsOf }: Standing,
): ReadonlyMap<string, string> => {
  const instruments = new Map<string, Set<string>>();
  const isPlayed: Wanted = (part) => instrumentsOf(part).length > 0;
  for (const track of collectTracks(cues, isPlayed)) {
    const key = groupKey(track);
    const all = instruments.get(key) ?? new Set();
    for (const { part } of track.parts) for (const id of instrumentsOf(part)) all.add(id);
    instruments.set(key, all);
  }
  return new Map(
    [...instruments].flatMap(([key, [id, other]]) =>
      id !== undefined && other === undefined ? [[key, id] as const] : [],
    ),
  );
};

/** The articulation in the words of the template: the track's own word, if `names` has it. */
const inWordsOf = (rule: DraftRule, names: Standing['names']): DraftRule => {
  if (rule.articulation === null) return rule;
  const words = rule.tracks.map(articulationWords);
  const known = words.find((word) => word !== null && names.has(word)) ?? rule.articulation;
  return { ...rule, articulation: escaped(known) };
};

const rulesFor = (group: TrackGroup, { named, names }: Standing): readonly DraftRule[] =>
  makeRules(group, {
    captures: false,
    nameAll: group.instrument !== null && !group.isNew && named.has(group.instrument),
  }).map((rule) => inWordsOf(rule, names));

/** Where the template had the instrument, or has none, what was seen stands with the rule. */
const routeAddition = (rule: DraftRule): Addition => {
  const { group, tracks } = rule;
  const comments = [
    `added: ${describeNames({ tracks })}`,
    ...(group.isNew ? [] : [describeSeen(see(tracks.flatMap(({ parts }) => parts)))]),
    ...(group.isNew || group.instrument === null
      ? []
      : ['tracks of similar names play this instrument: check that these do too']),
    ...rule.comments,
  ];
  return {
    comments,
    inFlow: ruleInFlow(rule),
    inBlock: (indent) => ruleLines(rule, indent, comments),
  };
};

const instrumentAddition = (
  group: TrackGroup,
  belonging: Belonging,
  outlines: OutlinesWanted | null,
): readonly Addition[] => {
  const { instrument, isNew } = group;
  if (instrument === null || !isNew) return [];
  const [names, seen] = seenComments(group);
  const comments = [`added: ${names}`, seen];
  return [
    {
      comments: [...comments, `fill in the ${outlines === null ? 'file' : 'outline'}:`],
      inFlow: `${instrument}: ${placeholder(instrument, outlines, belonging)}`,
      inBlock: (indent) => instrumentLines(instrument, comments, indent, outlines, belonging),
    },
  ];
};

/**
 * Adds to a template what it has no rules for: rules, and instruments to fill in, each at the end of
 * its section with a comment. Nothing else is touched; with nothing to add the text is the same.
 *
 * @param text the template as it is, which can be read
 * @param cues with all their parts, those included that have a rule
 * @param outlines where to name outlines for new instruments; null: name files
 */
export const updateTemplate = (
  text: string,
  cues: readonly PlayedCue[],
  standing: Standing,
  findings: readonly Finding[] = [],
  outlines: OutlinesWanted | null = null,
): Draft => {
  const tracks = collectTracks(cues, standing.isUnmapped);
  const groups = groupTracks(tracks, { ids: standing.ids, homes: homesIn(cues, standing) });
  const additions = {
    instruments: groups.flatMap((group) => instrumentAddition(group, standing.belonging, outlines)),
    routes: orderRules(groups.flatMap((group) => rulesFor(group, standing))).map(routeAddition),
  };
  return {
    schema: 'keepset/draft@1',
    groups: groups.map(draftGroup),
    added: groups.reduce((sum, group) => sum + group.tracks.length, 0),
    text: groups.length === 0 ? text : appendToYaml(text, additions),
    outlines: draftOutlines(groups, outlines, standing.names),
    findings,
  };
};
