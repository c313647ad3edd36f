import { captureRule } from './capture-rule.ts';
import type { DraftTrack } from './collect-tracks.ts';
import type { DraftRule } from './draft-rule.ts';
import { shownName } from './describe-group.ts';
import { articulationsOf, type TrackGroup } from './group-tracks.ts';
import { namePattern } from './name-patterns.ts';
import { switchPartners, switchSuspects } from './switch-tracks.ts';

/** How the rules of a group are written. */
export interface RuleStyle {
  /** True: a capture stands for the articulation; false: names are spelled out. */
  readonly captures: boolean;
  /** True: the articulation is named even if the group has only one. */
  readonly nameAll: boolean;
}

/** Tracks that a comment names. */
const mostNamed = 4;

type Tracks = readonly DraftTrack[];

/** Names that templates can't tell apart, and very long ones that begin alike, have one pattern. */
const patternsOf = (tracks: Tracks): readonly string[] => [
  ...new Set(new Map(tracks.map(({ folded, name }) => [folded, namePattern(name)])).values()),
];

const rule = (
  group: TrackGroup,
  tracks: Tracks,
  comments: readonly string[],
  articulation: string | null = null,
): DraftRule => ({
  group,
  tracks,
  by: 'track',
  patterns: patternsOf(tracks),
  articulation,
  comments,
});

/** One rule for each articulation, the names spelled out. */
export const spelledRules = (group: TrackGroup, tracks: Tracks): readonly DraftRule[] => {
  const byArticulation = new Map<string, DraftTrack[]>();
  for (const track of tracks) {
    const name = track.said.articulation?.name ?? '';
    const own = byArticulation.get(name);
    if (own === undefined) byArticulation.set(name, [track]);
    else own.push(track);
  }
  return [...byArticulation].map(([name, own]) => rule(group, own, [], name === '' ? null : name));
};

const joinRules = (
  group: TrackGroup,
  partners: ReadonlyMap<DraftTrack, DraftTrack>,
): readonly DraftRule[] => {
  const copies = new Map<DraftTrack, DraftTrack[]>();
  for (const [switches, notes] of partners) {
    const own = copies.get(notes);
    if (own === undefined) copies.set(notes, [notes, switches]);
    else own.push(switches);
  }
  const comments = ['by their names the notes and the switches of one copy'];
  return [...copies.values()].map((tracks) => ({ ...rule(group, tracks, comments), by: 'join' }));
};

const list = (tracks: Tracks): string =>
  tracks
    .slice(0, mostNamed)
    .map(({ name }) => `"${shownName(name)}"`)
    .join(', ') + (tracks.length > mostNamed ? ' …' : '');

/** What a person should look at in a rule for plain tracks. */
const remarks = (plain: Tracks): readonly string[] => {
  const [only, ...more] = articulationsOf({ tracks: plain });
  const switches = plain.filter(({ said }) => said.switchesOf !== null);
  const guides = plain.filter(({ said }) => said.mentionsClick);
  const suspects = switches.length > 0 || only !== undefined ? [] : switchSuspects(plain);
  return [
    ...(only !== undefined && more.length === 0
      ? [`the name says ${only}: if the instrument has other articulations too, name it here`]
      : []),
    ...(switches.length === 0
      ? []
      : [
          `switches, by the name, and it is not clear of which track: ${list(switches)}. Join them with their notes: join: [notes, switches]`,
        ]),
    ...(guides.length === 0
      ? []
      : [
          `perhaps a guide: ${list(guides)}. If nobody mixes it, ignore: true instead of an instrument`,
        ]),
    ...(suspects.length === 0
      ? []
      : [
          `an octave or more away from the rest: ${list(suspects)}. If these are switches, join them with their notes: join: [notes, switches]`,
        ]),
  ];
};

const ignoreRule = (group: TrackGroup): DraftRule =>
  rule(group, group.tracks, [
    'a click or guide: no instrument of the score plays it, by its name. If one does, route it',
  ]);

/** The rules for the tracks of one group; a rule that spells names out before one that captures. */
export const makeRules = (group: TrackGroup, style: RuleStyle): readonly DraftRule[] => {
  if (group.instrument === null) return [ignoreRule(group)];
  const partners = switchPartners(group.tracks);
  const joined = new Set([...partners].flat());
  const others = group.tracks.filter((track) => !joined.has(track));
  // A name without an articulation beside one with it: the articulation is what varies.
  const several =
    style.nameAll || new Set(others.map(({ said }) => said.articulation?.name)).size > 1;
  const isNamed = ({ said }: DraftTrack): boolean => several && said.articulation !== null;
  const named = others.filter(isNamed);
  const plain = others.filter((track) => !isNamed(track));
  const captured = style.captures ? captureRule(group, named) : null;
  const taken = new Set(captured?.tracks);
  const spelled = named.filter((track) => !taken.has(track));
  return [
    ...joinRules(group, partners),
    ...(plain.length === 0 ? [] : [rule(group, plain, remarks(plain))]),
    ...spelledRules(group, spelled),
    ...(captured === null ? [] : [captured]),
  ];
};
