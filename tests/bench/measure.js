/**
 * Times for ratios between things measured in turn on one machine. They are CPU times, in
 * milliseconds, of all threads of a process: the clock on the wall would measure whatever else runs
 * on the machine as well.
 */

/** The middle value; of an even number the mean of the middle two. */
export const median = (values) => {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
};

/** Runs `act` in this process. */
export const timed = (act) => {
  const before = process.cpuUsage();
  act();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
};

/** The same for what is done later, with threads of the system at work. */
export const timedLater = async (act) => {
  const before = process.cpuUsage();
  await act();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
};

/**
 * Runs each of `tasks` once a round, in turning order; each gives its time.
 *
 * @param tasks name -> what to do
 * @param warm how often each runs before, alone: the engine compiles what runs often, and does so
 *   late when two things that differ run in turn
 * @returns name -> times
 */
export const alternate = (tasks, { rounds, warm = 0 }) => {
  const names = Object.keys(tasks);
  const times = Object.fromEntries(names.map((name) => [name, []]));
  for (const name of names) for (let i = 0; i < warm; i += 1) tasks[name]();
  for (let round = 0; round < rounds; round += 1) {
    for (const name of round % 2 === 0 ? names : names.toReversed()) {
      times[name].push(tasks[name]());
    }
  }
  return times;
};

/** The median of a ratio taken round by round. */
export const ratio = (over, under) => median(over.map((time, round) => time / under[round]));

/** @example milliseconds(1234.5) // '1 235 ms' */
export const milliseconds = (time) =>
  time < 10
    ? `${time.toFixed(1)} ms`
    : `${String(Math.round(time)).replace(/(?<=\d)(?=(?:\d{3})+$)/g, ' ')} ms`;

/** @example times(4.25) // '4.25 x' */
export const times = (value) => `${value.toFixed(value < 10 ? 2 : 1)} x`;
