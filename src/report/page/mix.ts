import type { CheckedCue } from '../../keep/check/check.ts';
import type { Overview } from '../../overview/overview.ts';
import type { OverviewGroups } from '../../overview/overview-machines.ts';
import type { OverviewRisk } from '../../overview/overview-proof.ts';
import { formatDuration } from '../format.ts';
import { loadTime } from '../memory-words.ts';
import { amount } from './figures.ts';
import { markup, joined, type Html } from './html.ts';
import {
  cueName,
  instrumentName,
  listed,
  machineName,
  named,
  shortDigest,
  shown,
} from './names.ts';
import { formatCount, held, plural } from './numbers.ts';
import { scrollBox } from './scroll-box.ts';
import { doubtWords } from '../messages/doubts.ts';

const changes: Readonly<Record<CheckedCue['change'], string>> = {
  same: 'as planned',
  changed: 'changed since the plan',
  new: 'new since the plan',
};
const states: Readonly<Record<CheckedCue['state'], string>> = {
  read: 'read whole',
  damaged: 'damaged',
  unreadable: 'not readable',
};

const cues = ({ proof }: Overview): Html =>
  scrollBox(
    'Cues that were checked',
    markup`<table class=t><caption>The cues that were checked, and the files they were read from.</caption><thead><tr><th scope=col class=l>Cue<th scope=col>Version<th scope=col class=l>File, sha256<th scope=col class=l>State<th scope=col class=l>Against the plan<th scope=col>Length<th scope=col>Notes<tbody>${proof.cues.map(
      ({ id, version, files, state, change, seconds, notes }) =>
        markup`<tr><th scope=row>${shown(id)}<td>${version === null ? '' : String(version)}<td class=l>${joined(
          files.map(({ sha256 }) => markup`<span class=h>${shortDigest(sha256)}</span>`),
          ' ',
        )}<td class=l>${states[state]}<td class=l>${changes[change]}<td>${formatDuration(seconds)}<td>${formatCount(notes)}`,
    )}</table>`,
  );

/** What the older versions of a cue keep beside the newest. */
const olderKeep = ({ versions: all, bytes }: Overview['versions'][number]): Html => {
  const older = all.length === 2 ? 'the older one' : 'the older ones';
  const keep = all.length === 2 ? 'keeps' : 'keep';
  return bytes === 0
    ? markup`${older} ${keep} nothing that the reel does not need anyway`
    : markup`${older} ${keep} ${amount(bytes)} more`;
};

const versions = (overview: Overview): Html | null =>
  overview.versions.length === 0
    ? null
    : markup`<p>${overview.versions.map((one) => markup`${named(one.cue)} comes in ${plural(one.versions.length, 'version')} (${listed(one.versions)}); ${olderKeep(one)}. `)}</p>`;

const printed = ({ printed: { parts, bytes, tracks } }: Overview): Html =>
  parts === 0
    ? markup`<p>No track is marked as printed: every part is played.</p>`
    : markup`<p>${plural(parts, 'track')} ${parts === 1 ? 'is' : 'are'} audio already and not played: ${joined(
        tracks.map(
          ({ cue, track }) => markup`${named(track ?? 'without a name')} in ${named(cue)}`,
        ),
        ', ',
      )}. Live, ${parts === 1 ? 'it' : 'they'} would take ${amount(bytes)} more.</p>`;

type Microphones = Overview['instruments'][number]['microphones'];

/** Microphones of which as many zones stay, of as many, are told together. */
const alikeMicrophones = (all: Microphones): readonly Microphones[] => {
  const groups = new Map<string, Microphones[number][]>();
  for (const one of all) {
    const key = `${String(one.zonesKept)}/${String(one.zones)}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()];
};

const microphoneWords = (alike: Microphones): Html => {
  const { zones, zonesKept } = alike[0] ?? { zones: 0, zonesKept: 0 };
  const names = joined(
    alike.map(({ name }) => named(name)),
    ', ',
  );
  const each = alike.length > 1 && ' each';
  return zonesKept === 0
    ? markup`${names} gone (of ${plural(zones, 'zone')}${each})`
    : markup`${names}: ${formatCount(zonesKept)} of ${plural(zones, 'zone')}${each}`;
};

const microphones = ({ instruments }: Overview): Html => {
  const own = instruments.filter((one) => one.microphones.length > 0 && one.zonesKept > 0);
  if (own.length === 0) return markup`<p>No instrument that stays names its microphones.</p>`;
  return markup`<ul class=p>${own.map(
    ({ id, microphones: all }) =>
      markup`<li>${named(id)}: ${joined(alikeMicrophones(all).map(microphoneWords), '; ')}.`,
  )}</ul>`;
};

const time = (seconds: number | null): string =>
  seconds === null ? '' : `, ${held(loadTime(seconds))}`;

const groups = (overview: Overview, all: OverviewGroups | null): Html => {
  if (all === null)
    return markup`<p>All that the reel needs fits at once: nothing is loaded or unloaded between cues.</p>`;
  const alone = all.alone.map(
    ({ cue, machine, missing }) =>
      markup` ${named(cueName(overview, cue))} does not fit even alone: ${amount(missing)} missing on machine ${named(machineName(overview, machine))}.`,
  );
  return markup`<p>The reel is loaded in ${plural(all.groups.length, 'group')}. Changes load ${amount(all.load)}${time(all.seconds)}.${alone}</p><ol class=p>${all.groups.map(
    ({ cues: run, bytes, load, mayGo, seconds }) =>
      markup`<li>${listed(
        run.map((cue) => cueName(overview, cue)),
        60,
      )}: ${amount(bytes)}; to load ${amount(load)}${time(seconds)}, may go ${amount(mayGo)}.`,
  )}</ol>`;
};

/** A risk in words. */
export const riskWords = (overview: Overview, risk: OverviewRisk): Html => {
  const of = (indices: readonly number[]): Html =>
    listed(indices.map((one) => instrumentName(overview, one)));
  switch (risk.kind) {
    case 'settled':
      return markup`${risk.doubt} was settled as plain${risk.instruments.length > 0 && markup` (${listed(risk.instruments)})`}: what only this doubt (the files do not tell ${doubtWords[risk.doubt]}) would have kept is gone, on someone's word.`;
    case 'left-out':
      return markup`Left out, so nothing is kept for them: ${listed(risk.cues)}.`;
    case 'damaged':
      return markup`Damaged files: ${listed(risk.cues)}. What they may play is kept as a doubt; export them again.`;
    case 'unreadable':
      return markup`Not readable: ${listed(risk.cues)}. What they need is not known; export them again.`;
    case 'accepted':
      return markup`They look incomplete and were taken as whole: ${listed(risk.cues)}.`;
    case 'unknown-size':
      return markup`Samples of unknown size count as nothing: ${of(risk.instruments)}. These take more than the figures say.`;
    case 'tight':
      return markup`Machine ${named(machineName(overview, risk.machine))} is close to its budget: ${amount(risk.bytes)} to spare.`;
    case 'over':
      return markup`Machine ${named(machineName(overview, risk.machine))} may need ${amount(risk.bytes)} more than its budget.`;
    case 'unmapped':
      return markup`${plural(risk.parts, 'part')} that no rule takes ${risk.parts === 1 ? 'is' : 'are'} left aside: what they play is not kept.`;
    case 'silent-notes':
      return markup`Some notes start nothing: ${of(risk.instruments)}. See the findings.`;
    case 'no-headroom':
      return markup`There is no headroom: only what was played stays, and a revision that goes a semitone further is not covered.`;
  }
};

/** What a mix engineer should know before trusting the rig. */
export const mixSection = (overview: Overview): Html =>
  markup`<section id=mix aria-labelledby="mix-h"><h2 id=mix-h>For the mix</h2><h3>Proved against</h3>${cues(overview)}${versions(overview)}<h3>Printed tracks</h3>${printed(overview)}<h3>Microphones</h3>${microphones(overview)}<h3>Loading</h3>${groups(overview, overview.groups)}<h3>Risks</h3>${
    overview.risks.length === 0
      ? markup`<p>None that keepset knows of.</p>`
      : markup`<ul class=p>${overview.risks.map((risk) => markup`<li>${riskWords(overview, risk)}`)}</ul>`
  }</section>`;
