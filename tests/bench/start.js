import { alternate, median, milliseconds, ratio, times } from './measure.js';
import { node, program } from './processes.js';

/** (c) Whole processes: `--version`, which loads next to nothing, against a program of nothing. */
export const startRows = ({ rounds }) => {
  const all = alternate(
    { nothing: () => node('-e', '0'), version: () => node(program, '--version') },
    { rounds: Math.max(rounds, 21), warm: 2 },
  );
  const reached = ratio(all.version, all.nothing);
  return [
    {
      what: 'keepset --version, whole process',
      ours: milliseconds(median(all.version)),
      theirs: `node -e 0 ${milliseconds(median(all.nothing))}`,
      reached: `${times(reached)} its time`,
      target: 'at most 1.5 x',
      met: reached <= 1.5,
    },
  ];
};
