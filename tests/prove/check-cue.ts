import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The part of `keepset/check@1` that the proofs use. */
interface CheckJson {
  readonly schema: string;
  readonly verdict: string;
  readonly open: readonly string[];
  readonly misses: readonly {
    readonly zone: number;
    readonly silent: boolean;
    readonly isPreset: boolean;
    readonly doubts: readonly (readonly string[])[];
  }[];
}

/** What a check of one cue has said. */
export interface Checked {
  readonly code: number;
  readonly verdict: string;
  /** What stands against a proof: codes of findings. */
  readonly open: readonly string[];
  /** Missing zones, each once, ascending. */
  readonly zones: readonly number[];
  /** Misses that are not simply played: through a doubt only, or without their samples. */
  readonly otherwise: number;
}

const program = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

/** Every doubt, so that a plan keeps what the plain reading plays, and nothing else. */
const doubts = [
  ...['start-state', 'no-switch', 'order', 'slack', 'smoothing', 'tail', 'pedal-held'],
  ...['engine', 'stretch'],
];

const keepset = (args: readonly string[]): Promise<{ code: number; stdout: string }> =>
  new Promise((resolve, reject) => {
    const limits = { timeout: 300_000, maxBuffer: 512 * 1024 * 1024 };
    execFile(process.execPath, [program, ...args], limits, (error, stdout, stderr) => {
      const code = error === null ? 0 : error.code;
      if (code === 0 || code === 1) resolve({ code, stdout });
      else reject(new Error(`keepset ${args[0] ?? ''} failed (${String(code)}): ${stderr}`));
    });
  });

/** Writes the keep file of some cues on one bank, with every doubt answered `plain`. */
export const planPlainly = async (
  cues: readonly string[],
  bank: string,
  out: string,
): Promise<void> => {
  const settled = doubts.flatMap((doubt) => ['--settle', `${doubt}=plain`]);
  const { code } = await keepset(['plan', ...cues, '--instrument', bank, ...settled, '-o', out]);
  if (code !== 0) throw new Error(`no plan in ${out}`);
};

/** Checks a cue against a keep file through the command line. */
export const checkCue = async (cue: string, bank: string, keep: string): Promise<Checked> => {
  const { code, stdout } = await keepset([
    ...['check', cue, '--keep', keep, '--instrument', bank, '--format', 'json'],
  ]);
  const { schema, verdict, open, misses } = JSON.parse(stdout) as CheckJson;
  if (schema !== 'keepset/check@1') throw new Error(`not a check: ${schema}`);
  return {
    code,
    verdict,
    open,
    // A zone that stays for one preset may be asked for by another that was dropped: that is no zone.
    zones: [...new Set(misses.flatMap(({ zone, isPreset }) => (isPreset ? [] : [zone])))].sort(
      (a, b) => a - b,
    ),
    otherwise: misses.filter((miss) => miss.silent || miss.doubts.every((set) => set.length > 0))
      .length,
  };
};
