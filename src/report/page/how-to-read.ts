import type { Reason } from '../../keep/plan.ts';
import type { Overview } from '../../overview/overview.ts';
import { doubtNames } from '../../terms/doubt.ts';
import { doubtWords } from '../messages/doubts.ts';
import { markup, type Html } from './html.ts';
import { noKeepFileSaid } from '../said/no-keep-file.ts';
import { saidHtml } from './said-html.ts';

/** Why a cell stays, beside the doubts. */
const reasons: readonly (readonly [Reason, string])[] = [
  ['played', 'A note plays it.'],
  ['mutes', 'It stays without its samples: by starting it stops other notes.'],
  ['linked', 'It is the other half of a stereo pair that stays.'],
  ['pinned', 'It is pinned: it stays whatever the cues play.'],
  ['headroom', 'It is room around what is played.'],
  ['grain', 'Its player can not unload it apart from something that is needed.'],
  ...doubtNames.map(
    (name) => [name, `In doubt: the files do not tell ${doubtWords[name]}.`] as const,
  ),
];

const bases = {
  computed: 'computed from the sizes of the samples by the rule given for their player',
  fitted: "computed, then fitted to readings of the player's display",
  read: "read off the player's display",
} as const;

/** What the words and the figures of the page mean. The script takes the reasons of its panel from here. */
export const howToReadSection = (overview: Overview): Html => {
  const { instruments, settings, keep, template } = overview;
  const used = (['computed', 'fitted', 'read'] as const)
    .map((basis) => ({
      basis,
      count: instruments.filter((one) => one.bytes.basis === basis).length,
    }))
    .filter(({ count }) => count > 0);
  const { keys, velocity, controller } = settings.headroom;
  return markup`<section id=reading aria-labelledby="reading-h"><h2 id=reading-h>How to read this page</h2><dl><dt>Proved<dd>Every note of the checked cues was followed through the instruments, under every reading that the files leave open, and none reaches a zone that goes. It says nothing of cues that were not checked, nor of notes played live.<dt>Zone<dd>A recording as an instrument uses it: one sample for some keys and dynamics. Takes in turn and microphones are zones of their own.<dt>Kept<dd>Some note reaches it by the plain reading of the files.<dt>Doubtful<dd>A note reaches it only if something holds that the files do not tell. It stays until someone answers the doubt.<dt>Spare<dd>No note reaches it; it stays for one of the reasons below.<dt>Dropped<dd>Nothing needs it: it may be unloaded.<dt>Bytes<dd>1 KiB is 1 024 bytes, 1 MiB 1 024 KiB, 1 GiB 1 024 MiB. ${used.map(({ basis, count }) => `${String(count)} of ${String(instruments.length)} instruments: ${bases[basis]}. `)}At least and at most say how far an estimate may be off, and stand only where they differ; a state whose reading was taken off the display is certain. A machine fits when the most does. A step frees the difference of what its machine holds before and after it: with the last zone of a copy goes what the copy takes by itself, which the maps leave out.<dt>Notes<dd>Notes of an articulation are those that start it plainly. Others only choose what later notes start, start something only in doubt, or start nothing.<dt>Headroom<dd>${keys + velocity + controller === 0 ? 'None: only what was played stays.' : `${String(keys)} keys, ${String(velocity)} steps of velocity and ${String(controller)} steps of controllers around what was played.`}<dt>Digests<dd>${keep.sha256 === null ? markup`None of a keep file: ${saidHtml(noKeepFileSaid(overview) ?? [])}.` : markup`SHA-256 of the keep file: <span class=h>${keep.sha256}</span>.`}${template !== null && markup` Of the template: <span class=h>${template.sha256}</span>.`} Elsewhere the first 12 figures stand for them.</dl><h3>Why something stays</h3><dl>${reasons.map(
    ([reason, words]) => markup`<dt>${reason}<dd data-reason=${reason}>${words}`,
  )}</dl></section>`;
};
