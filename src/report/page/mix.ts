import type { Overview } from '../../overview/overview.ts';
import { formatDuration, tableUnit, type ByteUnit } from '../format.ts';
import { cueChanges, cueStates } from '../said/cue-states.ts';
import { shortDigest } from '../said/digest.ts';
import { groupsSaid, printedSaid, versionsSaid } from '../said/reel.ts';
import { riskSaid } from '../said/risks.ts';
import { markup, joined, type Html } from './html.ts';
import { bytesCell } from './figures.ts';
import { listed, shown } from './names.ts';
import { formatCount } from './numbers.ts';
import { saidHtml } from './said-html.ts';
import { scrollBox } from './scroll-box.ts';

const cues = ({ proof }: Overview): Html => {
  // Most names end with it.
  const isTold = proof.cues.some(
    ({ id, version }) => version !== null && !id.includes(String(version)),
  );
  return scrollBox(
    'Cues that were checked',
    markup`<table class=t><caption>The cues that were checked, and the files they were read from.</caption><thead><tr><th scope=col class=l>Cue${isTold && markup`<th scope=col>Version`}<th scope=col class=l>File, sha256<th scope=col class=l>State<th scope=col class=l>Against the plan<th scope=col>Length<th scope=col>Notes<tbody>${proof.cues.map(
      ({ id, version, files, state, change, seconds, notes }) =>
        markup`<tr><th scope=row>${shown(id)}${isTold && markup`<td>${version === null ? '' : String(version)}`}<td class=l>${joined(
          files.map(({ sha256 }) => markup`<span class=h>${shortDigest(sha256)}</span>`),
          ' ',
        )}<td class=l>${cueStates[state]}<td class=l>${cueChanges[change]}<td>${formatDuration(seconds)}<td>${formatCount(notes)}`,
    )}</table>`,
  );
};

const versions = (overview: Overview): Html | null =>
  overview.versions.length === 0
    ? null
    : markup`<p>${versionsSaid(overview).map((one) => markup`${saidHtml(one)} `)}</p>`;

const printed = (overview: Overview): Html => markup`<p>${saidHtml(printedSaid(overview))}</p>`;

type Microphones = Overview['instruments'][number]['microphones'];

/** Microphones of one instrument that take as much, and leave as much, are told together. */
const alikeMicrophones = (all: Microphones): readonly Microphones[] => {
  const groups = new Map<string, Microphones[number][]>();
  for (const one of all) {
    const key = JSON.stringify([one.bytes, one.bytesAtMost]);
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()];
};

const microphoneRow = (id: string, alike: Microphones, unit: ByteUnit): Html => {
  const [first] = alike;
  if (first === undefined) return markup``;
  const { bytes, bytesAtMost } = first;
  const names = alike.map(({ name }) => name);
  return markup`<tr><th scope=row>${shown(id)}<td class=l>${listed(names)}${bytesAtMost && ', at most'}${bytesCell(bytes.full, unit)}${bytesCell(bytes.kept, unit)}`;
};

/** What each microphone takes, so that one may weigh which to do without. */
const microphones = ({ instruments }: Overview): Html => {
  const own = instruments.filter((one) => one.microphones.length > 0 && one.zonesKept > 0);
  if (own.length === 0) return markup`<p>No instrument that stays names its microphones.</p>`;
  const every = own.flatMap((one) => one.microphones);
  const unit = tableUnit(Math.max(...every.map(({ bytes }) => bytes.full)));
  const shares = every.some(({ bytesAtMost }) => bytesAtMost);
  return scrollBox(
    'Microphones',
    markup`<table class=t><caption>What each microphone takes by itself, ${unit.name}, before and after; several names: each of them.${shares && ' At most: it shares samples, so that without it less is freed.'}</caption><thead><tr><th scope=col class=l>Instrument<th scope=col class=l>Microphones<th scope=col>Now, each<th scope=col>After, each<tbody>${own.map(
      ({ id, microphones: all }) =>
        alikeMicrophones(all).map((alike) => microphoneRow(id, alike, unit)),
    )}</table>`,
  );
};

const groups = (overview: Overview): Html => {
  if (overview.groups === null) {
    return overview.machines.some(({ budget }) => budget === null)
      ? markup`<p>Where no budget is given, whether all that the reel needs fits at once is not known. Where one is, it does.</p>`
      : markup`<p>All that the reel needs fits at once: nothing is loaded or unloaded between cues.</p>`;
  }
  const { all, each } = groupsSaid(overview, overview.groups);
  return markup`<p>${saidHtml(all)}</p><ol class=p>${each.map((one) => markup`<li>${saidHtml(one)}`)}</ol>`;
};

/** What a mix engineer should know before trusting the rig. */
export const mixSection = (overview: Overview): Html =>
  markup`<section id=mix aria-labelledby="mix-h"><h2 id=mix-h>For the mix</h2><h3>Checked</h3>${cues(overview)}${versions(overview)}<h3>Printed tracks</h3>${printed(overview)}<h3>Microphones</h3>${microphones(overview)}<h3>Loading</h3>${groups(overview)}<h3>Risks</h3>${
    overview.risks.length === 0
      ? markup`<p>None that keepset knows of.</p>`
      : markup`<ul class=p>${overview.risks.map((risk) => markup`<li>${saidHtml(riskSaid(overview, risk))}`)}</ul>`
  }</section>`;
