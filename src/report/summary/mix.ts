import type { CheckedCue } from '../../keep/check/check.ts';
import type { Overview } from '../../overview/overview.ts';
import { bullets } from '../bullets.ts';
import { fixed, name, several, shortened, type Cell } from '../cell.ts';
import { formatCount, formatDuration } from '../format.ts';
import type { Look } from '../look.ts';
import { led } from '../indent.ts';
import { paragraph } from '../paragraph.ts';
import { cueChanges, cueStates } from '../said/cue-states.ts';
import { shortDigest } from '../said/digest.ts';
import { groupsSaid, printedSaid, versionsSaid } from '../said/reel.ts';
import { riskSaid } from '../said/risks.ts';
import { saidText } from './said-text.ts';
import { titledTable } from './titled-table.ts';

const proofs: Readonly<Record<Overview['proof']['verdict'], string>> = {
  proved: 'These cues are proved.',
  'not-proved': 'These cues were checked and are not proved: see above.',
  missing: 'These cues were checked and ask for something that goes: see below.',
};

const digests = ({ files }: CheckedCue): Cell =>
  several({
    items: files.map(({ sha256 }) => ({ text: shortDigest(sha256), short: shortDigest(sha256) })),
    one: 'file',
    many: 'files',
  });

const changeCell = (change: CheckedCue['change']): Cell =>
  shortened([cueChanges[change], ...(change === 'same' ? [] : [change])]);

/** The cues that were checked and their files, what is printed, and how the reel is loaded. */
export const mixLines = (overview: Overview, look: Look): readonly string[] => {
  const { proof, groups } = overview;
  const loading = groups === null ? null : groupsSaid(overview, groups);
  const sentence = (text: string): readonly string[] => paragraph([text], look.width);
  return [
    ...titledTable(
      'For the mix: cues and files',
      [
        { title: ['Cue'], align: 'left', min: 8 },
        { title: ['Version'], align: 'right', leaveOut: 3 },
        { title: ['File, sha256'], align: 'left', min: 12 },
        { title: ['State'], align: 'left', leaveOut: 1 },
        { title: ['Against', 'the plan'], align: 'left', min: 10 },
        { title: ['Length'], align: 'right', leaveOut: 4 },
        { title: ['Notes'], align: 'right', leaveOut: 5 },
      ],
      proof.cues.map((cue) => [
        name(cue.id, look),
        fixed(cue.version === null ? '' : String(cue.version)),
        digests(cue),
        fixed(cueStates[cue.state], cue.state === 'read' ? undefined : look.colors.yellow),
        changeCell(cue.change),
        fixed(formatDuration(cue.seconds)),
        fixed(formatCount(cue.notes)),
      ]),
      look,
    ),
    ...sentence(proofs[proof.verdict]),
    ...versionsSaid(overview).flatMap((one) => sentence(saidText(one, look))),
    ...sentence(saidText(printedSaid(overview), look)),
    ...(loading === null
      ? []
      : [
          ...sentence(saidText(loading.all, look)),
          ...loading.each.flatMap((one) => led('- ', [saidText(one, look)], look)),
        ]),
  ];
};

/** What a mix engineer should know before trusting the rig. */
export const riskLines = (overview: Overview, look: Look): readonly string[] =>
  overview.risks.length === 0
    ? paragraph(['No risk that keepset knows of.'], look.width)
    : bullets(
        'Risks',
        overview.risks.map((risk) => [saidText(riskSaid(overview, risk), look)]),
        look,
      );
