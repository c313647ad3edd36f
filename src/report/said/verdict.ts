import type { Witness } from '../../keep/plan.ts';
import type { Overview } from '../../overview/overview.ts';
import { formatCount, plural } from '../format.ts';
import { said, type Said } from './said.ts';
import { trackSaid } from './track.ts';

/** The answer: a word that needs no colour, and what it means. */
export interface Answer {
  readonly word: 'Proved' | 'Not proved' | 'Missing';
  readonly means: Said;
}

/** Where a note is. @example '2m2 v2 bar 12 beat 1, Hn 1' */
export const placeSaid = ({ cue, bar, beat, track, trackName }: Witness): Said => {
  const who = trackSaid({ track, trackName });
  return said`${{ name: cue }} bar ${String(bar)} beat ${String(Math.floor(beat))}, ${who}`;
};

/** What stays and what is saved, of all there is. */
export const memorySaid = ({ total: { bytes } }: Overview): Said =>
  said`${{ figure: 'total.bytes.kept', bytes: bytes.kept }} of ${{ figure: 'total.bytes.full', bytes: bytes.full }} stay loaded, ${{ figure: 'total.bytes.saved', bytes: bytes.saved }} are saved.`;

const provedWords = (cues: number, gone: number): string => {
  const they = plural(cues, 'cue');
  if (gone === 0) return `nothing goes, so ${they} ${cues === 1 ? 'misses' : 'miss'} nothing`;
  if (gone === 1) return `${they} ${cues === 1 ? 'does' : 'do'} not need the one zone that goes`;
  return `${they} ${cues === 1 ? 'needs' : 'need'} none of the ${plural(gone, 'zone')} that go`;
};

export const answerOf = ({ proof, total }: Overview): Answer => {
  if (proof.verdict === 'proved') {
    const gone = total.zones - total.zonesKept;
    return { word: 'Proved', means: [`${provedWords(proof.cues.length, gone)}.`] };
  }
  if (proof.verdict === 'not-proved') {
    const { open } = proof;
    const stands = open.length === 1 ? 'one thing stands' : `${plural(open.length, 'thing')} stand`;
    const means = `nothing that goes is asked for as far as can be seen, but ${stands} against a proof.`;
    return { word: 'Not proved', means: [means] };
  }
  const { misses, bytes } = proof.total;
  const place = proof.misses[0]?.places[0];
  const where = place === undefined ? '' : said`, first at ${placeSaid(place)}`;
  const doubtful = proof.doubtfulMisses;
  const inDoubt =
    doubtful === 0
      ? ''
      : doubtful === misses
        ? ', only in doubt'
        : `, ${formatCount(doubtful)} of them only in doubt`;
  const loaded =
    bytes === 0
      ? ''
      : said` ${{ figure: 'proof.total.bytes', bytes }} would have to be loaded again.`;
  return {
    word: 'Missing',
    means: said`${plural(misses, 'zone')} that ${misses === 1 ? 'goes is' : 'go are'} asked for${inDoubt}${where}.${loaded}`,
  };
};
