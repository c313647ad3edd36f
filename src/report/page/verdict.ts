import { keyRangeLabel } from '../../terms/key.ts';
import type { OverviewMiss } from '../../overview/overview-proof.ts';
import type { Overview } from '../../overview/overview.ts';
import type { Witness } from '../../keep/plan.ts';
import { messageOf } from '../messages.ts';
import { rangeText } from './dynamics.ts';
import { amount, figure } from './figures.ts';
import { markup, joined, type Html } from './html.ts';
import { listed, named, shortDigest } from './names.ts';
import { formatCount, held, inRanges, plural } from './numbers.ts';
import { pageLook } from './room.ts';
import { noKeepFileWords } from './keep-words.ts';
import { wayWords } from '../ways-out.ts';
import { missesReduced } from './reduced.ts';

/** Where a note is. @example '2m2 v2 bar 12 beat 1, Hn 1' */
export const placeWords = ({ cue, bar, beat, track, trackName }: Witness): Html => {
  const name = trackName ?? '';
  const who = name.trim() === '' ? `track ${String(track + 1)}` : named(name);
  return markup`${named(cue)} bar ${bar} beat ${Math.floor(beat)}, ${who}`;
};

const memoryWords = ({ total: { bytes } }: Overview): Html =>
  markup`${figure('total.bytes.kept', bytes.kept)} of ${figure('total.bytes.full', bytes.full)} stay loaded, ${figure('total.bytes.saved', bytes.saved)} are saved.`;

const provedWords = (cues: number, gone: number): string => {
  const they = plural(cues, 'cue');
  if (gone === 0) return `nothing goes, so ${they} ${cues === 1 ? 'misses' : 'miss'} nothing`;
  if (gone === 1) return `${they} ${cues === 1 ? 'does' : 'do'} not need the one zone that goes`;
  return `${they} ${cues === 1 ? 'needs' : 'need'} none of the ${plural(gone, 'zone')} that go`;
};

/** The answer, a sentence that needs no colour. */
const answer = (overview: Overview): Html => {
  const { proof, total } = overview;
  const gone = total.zones - total.zonesKept;
  const [first] = proof.misses;
  if (proof.verdict === 'proved') {
    return markup`<b>Proved:</b> ${provedWords(proof.cues.length, gone)}. ${memoryWords(overview)}`;
  }
  if (proof.verdict === 'not-proved') {
    const { open } = proof;
    const stands = open.length === 1 ? 'one thing stands' : `${plural(open.length, 'thing')} stand`;
    return markup`<b>Not proved:</b> nothing that goes is asked for as far as can be seen, but ${stands} against a proof. ${memoryWords(overview)}`;
  }
  const where = first?.places[0];
  const { misses, bytes } = proof.total;
  const loaded =
    bytes === 0
      ? null
      : markup` ${figure('proof.total.bytes', bytes)} would have to be loaded again.`;
  return markup`<b>Missing:</b> ${plural(misses, 'zone')} that ${misses === 1 ? 'goes is' : 'go are'} asked for${where === undefined ? null : markup`, first at ${placeWords(where)}`}.${loaded}`;
};

const fitsWords = ({ fits, machine }: OverviewMiss): Html | null =>
  fits === null
    ? null
    : markup`, which ${fits ? 'fits' : 'does not fit'} on machine ${named(machine)}`;

const missItem = (miss: OverviewMiss, middleC: number): Html => {
  const { instrument, copy, articulations, zones, notes, doubtfulNotes, keys, places, bytes } =
    miss;
  const more = doubtfulNotes > 0 ? `, ${formatCount(doubtfulNotes)} more in doubt` : '';
  const upTo = miss.notesAtMost ? 'up to ' : '';
  const asked =
    notes > 0
      ? `${upTo}${plural(notes, 'note')}${more}`
      : `${upTo}${plural(doubtfulNotes, 'note')}, only in doubt`;
  const ways = miss.ways.map((way) => markup` Or ${inRanges(wayWords(way, pageLook(middleC)))}.`);
  const velocities = miss.velocities === null ? '' : `, velocity ${rangeText(miss.velocities)}`;
  const what = articulations.length === 0 ? null : markup`, ${listed(articulations, 4)}`;
  return markup`<li><b>${named(instrument)}</b>${copy === null ? null : markup` copy ${named(copy)}`}${what}: ${plural(zones, 'zone')} asked for by ${asked}, ${inRanges(keys.map((range) => keyRangeLabel(range, middleC)).join(', ') + velocities)}. First at ${joined(places.map(placeWords), '; ')}. Ways out: load it again, ${miss.bytesAtMost && 'at most '}${amount(bytes)}${fitsWords(miss)}.${ways}`;
};

/** Misses that are listed; the command that tells of all is named below. */
const mostMisses = 12;

const misses = (overview: Overview): Html | null => {
  const { proof, middleC } = overview;
  if (proof.misses.length === 0) return null;
  return markup`<h2>What is missing, where</h2><ul class=p>${proof.misses.slice(0, mostMisses).map((miss) => missItem(miss, middleC))}</ul>${missesReduced(Math.min(mostMisses, proof.misses.length), overview)}`;
};

/** What stands against a proof, each once, in words. */
const against = ({ proof, findings }: Overview): Html | null => {
  if (proof.open.length === 0) return null;
  const found = proof.open.flatMap((code) => findings.find((one) => one.code === code) ?? []);
  return markup`<h2>What stands against a proof</h2><ul class=p>${found.map((one) => markup`<li>${held(messageOf(one).message)}`)}</ul>`;
};

const basis = (overview: Overview): Html => {
  const { proof, keep, template, total } = overview;
  const cues =
    proof.of === 'plan'
      ? 'the cues that the plan was made from'
      : 'the cues that were named beside the keep file';
  const row = (title: string, value: Html): Html => markup`<dt>${title}<dd>${value}`;
  return markup`<dl class=f>${row('Stays', markup`${formatCount(total.zonesKept)} of ${plural(total.zones, 'zone')}, ${formatCount(total.samplesKept)} of ${plural(total.samples, 'sample')}; the cues reach ${figure('total.bytes.reached', total.bytes.reached)}`)}${row('Checked', markup`${cues}: ${plural(proof.cues.length, 'cue')}, ${plural(proof.notes, 'note')}`)}${proof.absent.length > 0 && row('Not checked', markup`of the plan's cues: ${listed(proof.absent)}`)}${proof.leftOut.length > 0 && row('Left out', listed(proof.leftOut))}${proof.accepted.length > 0 && row('Taken as whole', markup`on someone's word: ${listed(proof.accepted)}`)}${row('Keep file', markup`${keep.sha256 === null ? markup`none: ${noKeepFileWords(overview)}` : markup`${keep.path === null ? 'made for this page' : named(keep.path)}, sha256 ${shortDigest(keep.sha256)}`}`)}${template !== null && row('Template', markup`${named(template.path)}, sha256 ${shortDigest(template.sha256)}`)}</dl>`;
};

/** Machines that do not fit, whatever was proved. Judged on the high figure, which is the one needed. */
const tooSmall = ({ machines }: Overview): readonly Html[] =>
  machines.flatMap(({ id, budget, bytes, fits }) =>
    fits === false && budget !== null
      ? [
          markup` Machine ${named(id)} ${bytes.kept > budget ? 'does' : 'may'} not fit: ${bytes.kept > budget ? null : 'up to '}${amount(bytes.kept > budget ? bytes.kept : bytes.high)} needed, ${amount(budget)} there.`,
        ]
      : [],
  );

/** A bar of what stays of all there is; the sentence above says it in figures. */
const bar = ({ total: { bytes } }: Overview): Html => {
  const kept = bytes.full === 0 ? 0 : Math.round((bytes.kept / bytes.full) * 1000);
  return markup`<svg class=b viewBox="0 0 1000 10" preserveAspectRatio="none" aria-hidden=true><path class=a d="M0 5h1000" /><path class=k d="M0 5h${kept}" /></svg>`;
};

/** The verdict first, then what it rests on. */
export const verdictSection = (overview: Overview): Html =>
  markup`<section id=verdict aria-label="Verdict"><p class=v>${answer(overview)}${tooSmall(overview)}</p>${bar(overview)}${misses(overview)}${against(overview)}${basis(overview)}<p class=n>Keep your full template. Figures are estimates: compare them with what your players show, and check before anything is deleted.</p></section>`;
