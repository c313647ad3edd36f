import type { ReelMemory } from '../keep/reel/reel-memory.ts';
import type { Look } from './look.ts';
import { memoryAbout } from './memory-about.ts';
import { memoryComparison } from './memory-comparison.ts';
import { memoryCue } from './memory-cue.ts';
import { memoryGroups } from './memory-groups.ts';
import { memoryInstruments } from './memory-instruments.ts';
import { memoryMachineTable } from './memory-machine-table.ts';
import { memoryOverview } from './memory-overview.ts';
import { memoryPlacement } from './memory-placement.ts';
import { memoryRoom } from './memory-room.ts';
import { memoryVerdict } from './memory-verdict.ts';

export interface MemoryLook extends Look {
  /** Rows are the cues on each machine, or its instruments. */
  readonly by: 'machine' | 'instrument';
}

/**
 * What the cues of a reel need, as a person loads them: the answer, the cues, what would make room, and
 * what else was asked for. One cue by bars takes the place of the reel's tables.
 */
export const memoryTable = (memory: ReelMemory, look: MemoryLook): string => {
  const isCue = memory.cue !== null;
  const { inGroups } = memory.settings;
  const sections: readonly (readonly string[])[] = [
    memoryVerdict(memory, look),
    memoryCue(memory, look),
    // What was asked for comes first.
    ...(inGroups ? [memoryGroups(memory, look)] : []),
    ...(isCue ? [] : reel(memory, look)),
    ...(isCue ? [] : memoryRoom(memory, look)),
    ...(inGroups ? [] : [memoryGroups(memory, look)]),
    memoryPlacement(memory.placement, look),
    memoryComparison(memory.comparison, look),
    memoryAbout(memory, signs(memory, look), showsChanges(memory, look), look),
  ];
  return `${sections
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
};

const reel = (memory: ReelMemory, look: MemoryLook): readonly (readonly string[])[] => {
  if (memory.cues.length === 0) return [];
  return look.by === 'instrument'
    ? memory.machines.map((machine) => memoryInstruments(machine, memory, look))
    : [
        memoryOverview(memory, look),
        ...memory.machines.map((machine) => memoryMachineTable(machine, memory, look)),
      ];
};

/** A table has columns of what is loaded, and what may go. */
const showsChanges = ({ cue, cues, groups }: ReelMemory, { by }: MemoryLook): boolean =>
  (cues.length > 1 && cue === null && by === 'machine') || (groups?.groups.length ?? 0) > 1;

const signs = ({ cue, comparison }: ReelMemory, { by }: MemoryLook): boolean =>
  comparison !== null || (cue === null && by === 'instrument');
