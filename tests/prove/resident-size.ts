import { spawn } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { setTimeout as pause } from 'node:timers/promises';

/** What a process has in memory, in bytes. */
export interface Resident {
  /** All of it: `VmRSS`. */
  readonly all: number;
  /** What it asked for itself, without pages of program files: `RssAnon`. */
  readonly own: number;
}

/** A program that loads a bank has done so when its size has not changed for this many looks. */
const steadyLooks = 5;
const betweenLooks = 150;
const mostLooks = 200;

const bytesOf = (status: string, field: string): number => {
  const kib = new RegExp(`^${field}:\\s+(\\d+) kB$`, 'mu').exec(status)?.[1];
  if (kib === undefined) throw new Error(`no ${field} in the status of the process`);
  return Number(kib) * 1024;
};

/** The fields are those of proc(5), `/proc/pid/status`. */
const look = async (pid: number): Promise<Resident> => {
  const status = await readFile(`/proc/${String(pid)}/status`, 'utf8');
  return { all: bytesOf(status, 'VmRSS'), own: bytesOf(status, 'RssAnon') };
};

/**
 * Starts a FluidSynth process that loads a bank and then waits for commands, and reads how much of it is
 * in memory once that stays the same. FluidSynth locks samples in memory (`synth.lock-memory`, on unless it
 * is told otherwise) and loads them whole unless told (`synth.dynamic-sample-loading`), so all of them are
 * there. Its sound goes nowhere; it reads no settings of this machine.
 */
const residentOnce = async (bank: string): Promise<Resident> => {
  const child = spawn(
    'fluidsynth',
    [
      ...['-a', 'file', '-o', 'audio.file.name=/dev/null', '-n', '-q', '-f', '/dev/null'],
      ...['-o', 'synth.cpu-cores=1', '-o', 'synth.lock-memory=1'],
      ...['-o', 'synth.dynamic-sample-loading=0', bank],
    ],
    {
      stdio: ['pipe', 'ignore', 'pipe'],
      env: { ...process.env, HOME: '/nonexistent', SDL_AUDIODRIVER: 'dummy' },
    },
  );
  let said = '';
  child.stderr.setEncoding('utf8').on('data', (part: string) => (said += part));
  const closed = new Promise((resolve) => child.once('close', resolve));
  try {
    await new Promise((resolve, reject) => {
      child.once('spawn', resolve).once('error', reject);
    });
    let last: Resident = { all: 0, own: 0 };
    let steady = 0;
    for (let n = 0; n < mostLooks && steady < steadyLooks; n += 1) {
      await pause(betweenLooks);
      if (child.exitCode !== null) throw new Error(`fluidsynth ended: ${said}`);
      const now = await look(child.pid!);
      // Before it begins to load, it is small and steady too.
      steady = now.all === last.all && now.own === last.own && now.own > 2 ** 20 ? steady + 1 : 0;
      last = now;
    }
    // A bank that is not loaded would be another bank: FluidSynth takes its usual one then.
    if (/failed to load|not a valid|mlock|pin the/iu.test(said)) throw new Error(said);
    if (steady < steadyLooks) throw new Error(`fluidsynth does not come to rest with ${bank}`);
    return last;
  } finally {
    child.kill('SIGKILL');
    await closed;
  }
};

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;

/** The middle of three processes, one after the other. */
export const residentSize = async (bank: string): Promise<Resident> => {
  const read: Resident[] = [];
  for (let n = 0; n < 3; n += 1) read.push(await residentOnce(bank));
  return { all: median(read.map(({ all }) => all)), own: median(read.map(({ own }) => own)) };
};
