import type { Overview } from '../../overview/overview.ts';
import { formatCount, plural } from '../format.ts';
import { shortDigest } from './digest.ts';
import { noKeepFileSaid } from './no-keep-file.ts';
import { listedSaid, said, type Said } from './said.ts';

/** What a verdict rests on: a title and what it is, line by line. */
export const basisOf = (overview: Overview): readonly (readonly [title: string, is: Said])[] => {
  const { proof, keep, template, total } = overview;
  const { absent, leftOut, accepted } = proof;
  const count = `${plural(proof.cues.length, 'cue')}, ${plural(proof.notes, 'note')}`;
  return [
    [
      'Stays',
      said`${formatCount(total.zonesKept)} of ${plural(total.zones, 'zone')}, ${formatCount(total.samplesKept)} of ${plural(total.samples, 'sample')}; the cues reach ${{ figure: 'total.bytes.reached', bytes: total.bytes.reached }}`,
    ],
    [
      'Checked',
      proof.of === 'plan'
        ? [`the cues that the plan was made from: ${count}`]
        : said`${listedSaid(proof.cues.map(({ id }) => id))}, named beside the keep file: ${count}`,
    ],
    ...row('Not checked', absent, said`of the plan's cues: ${listedSaid(absent)}`),
    ...row('Left out', leftOut, listedSaid(leftOut)),
    ...row('Taken as whole', accepted, said`on someone's word: ${listedSaid(accepted)}`),
    ['Keep file', keepFile(overview, keep)],
    ...(template === null
      ? []
      : [
          [
            'Template',
            said`${{ name: template.path }}, sha256 ${shortDigest(template.sha256)}`,
          ] as const,
        ]),
  ];
};

const row = (title: string, names: readonly string[], is: Said) =>
  names.length === 0 ? [] : [[title, is] as const];

const keepFile = (overview: Overview, { path, sha256 }: Overview['keep']): Said =>
  sha256 === null
    ? said`none: ${noKeepFileSaid(overview) ?? ''}`
    : said`${path === null ? 'made for this report' : { name: path }}, sha256 ${shortDigest(sha256)}`;
