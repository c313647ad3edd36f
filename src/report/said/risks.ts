import type { OverviewRisk } from '../../overview/overview-proof.ts';
import type { Overview } from '../../overview/overview.ts';
import { plural } from '../format.ts';
import { doubtWords } from '../messages/doubts.ts';
import { listedSaid, said, type Said } from './said.ts';

/** A risk in words. */
export const riskSaid = ({ instruments, machines }: Overview, risk: OverviewRisk): Said => {
  const of = (indices: readonly number[]): Said =>
    listedSaid(indices.map((one) => instruments[one]?.id ?? ''));
  const machine = (index: number) => ({ name: machines[index]?.id ?? '' });
  switch (risk.kind) {
    case 'settled': {
      const where = risk.instruments.length > 0 ? said` (${listedSaid(risk.instruments)})` : '';
      return said`${risk.doubt} was settled as plain${where}: what only this doubt (the files do not tell ${doubtWords[risk.doubt]}) would have kept is gone, on someone's word.`;
    }
    case 'left-out':
      return said`Left out, so nothing is kept for them: ${listedSaid(risk.cues)}.`;
    case 'damaged':
      return said`Damaged files: ${listedSaid(risk.cues)}. What they may play is kept as a doubt; export them again.`;
    case 'unreadable':
      return said`Not readable: ${listedSaid(risk.cues)}. What they need is not known; export them again.`;
    case 'accepted':
      return said`They look incomplete and were taken as whole: ${listedSaid(risk.cues)}.`;
    case 'unknown-size':
      return said`Samples of unknown size count as nothing: ${of(risk.instruments)}. These take more than the figures say.`;
    case 'tight':
      return said`Machine ${machine(risk.machine)} is close to its budget: ${{ bytes: risk.bytes }} to spare.`;
    case 'over':
      return said`Machine ${machine(risk.machine)} may need ${{ bytes: risk.bytes }} more than its budget.`;
    case 'unmapped':
      return said`${plural(risk.parts, 'part')} that no rule takes ${risk.parts === 1 ? 'is' : 'are'} left aside: what they play is not kept.`;
    case 'silent-notes':
      return said`Some notes start nothing: ${of(risk.instruments)}. See the findings.`;
    case 'no-headroom':
      return [
        'There is no headroom: only what was played stays, and a revision that goes a semitone further is not covered.',
      ];
  }
};
