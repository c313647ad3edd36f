import type { Overview } from '../overview/overview.ts';
import type { Look } from './look.ts';
import { paragraph } from './paragraph.ts';
import { caution } from './said/caution.ts';
import { composerLines } from './summary/composer.ts';
import { doubtLines } from './summary/doubts.ts';
import { firstStepLines } from './summary/first-steps.ts';
import { machineLines, roomLines } from './summary/machines.ts';
import { missingLines } from './summary/missing.ts';
import { mixLines, riskLines } from './summary/mix.ts';
import { againstLines, titleLines, verdictLines } from './summary/verdict.ts';

/**
 * The page in short, to read in a terminal or to put into a message: the answer, then what the
 * technician, the composer and the mix engineer need of it. Maps, the reel and the steps are left to the page.
 */
export const reportText = (overview: Overview, given: Look): string => {
  const look = { ...given, middleC: overview.middleC };
  const sections: readonly (readonly string[])[] = [
    titleLines(overview, look),
    verdictLines(overview, look),
    missingLines(overview, look),
    againstLines(overview, look),
    machineLines(overview, look),
    ...roomLines(overview, look),
    firstStepLines(overview, look),
    doubtLines(overview, look),
    composerLines(overview, look),
    mixLines(overview, look),
    riskLines(overview, look),
    paragraph(
      [
        'Maps, matrix, memory along the reel and the worklist are on the page: the same command with --format html -o FILE.html.',
        caution,
      ],
      look.width,
    ),
  ];
  return `${sections
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
};
