import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { readBankSamples } from './bank-samples.ts';

const run = promisify(execFile);

/** The part of `keepset/plan@1` that the proofs use (design, section 10). */
interface PlanJson {
  readonly schema: 'keepset/plan@1';
  readonly cues: readonly { readonly state: string }[];
  readonly instruments: readonly {
    readonly kept: readonly {
      readonly zone: number;
      readonly samples: readonly string[];
      readonly reasons: readonly string[];
      readonly notes: number;
      readonly witnesses: readonly Witness[];
    }[];
  }[];
}

/** A note that reaches a zone, as far as the proofs look at it. */
interface Witness {
  readonly tick: number;
  readonly key: number | null;
  readonly velocity: number | null;
}

/** A sample that the plain reading reaches, and all that the plan says of why. */
export interface PlayedSample {
  readonly sample: number;
  readonly notes: number;
  readonly witnesses: readonly Witness[];
}

/** Header indices of the samples of a bank, by what one plan does with them. */
export interface CuePlan {
  readonly kept: readonly number[];
  readonly dropped: readonly number[];
  /** The kept ones with the reason `played`. */
  readonly played: readonly PlayedSample[];
}

const program = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

/** `"12:Oboe C5"` is header index and name. */
const headerIndex = (name: string): number => {
  const index = /^(\d+):/.exec(name)?.[1];
  if (index === undefined) throw new Error(`not a sample of a bank: ${name}`);
  return Number(index);
};

const ascending = (set: Iterable<number>): number[] => [...set].sort((a, b) => a - b);

const playedSamples = (plan: PlanJson['instruments'][number]): PlayedSample[] => {
  const bySample = new Map<number, PlayedSample>();
  for (const { samples, reasons, notes, witnesses } of plan.kept) {
    if (!reasons.includes('played')) continue;
    for (const sample of samples.map(headerIndex)) {
      const before = bySample.get(sample);
      bySample.set(sample, {
        sample,
        notes: (before?.notes ?? 0) + notes,
        witnesses: [...(before?.witnesses ?? []), ...witnesses],
      });
    }
  }
  return ascending(bySample.keys()).map((sample) => bySample.get(sample)!);
};

/**
 * Plans one cue with one bank through the command line, as a user does. Nothing is settled, so what
 * is in doubt is kept.
 */
export const planCue = async (cue: string, bank: string): Promise<CuePlan> => {
  const args = [program, 'plan', cue, '--instrument', bank, '--format', 'json'];
  const { stdout } = await run(process.execPath, args, {
    timeout: 120_000,
    maxBuffer: 512 * 1024 * 1024,
  });
  const plan = JSON.parse(stdout) as PlanJson;
  const instrument = plan.instruments[0];
  if (instrument === undefined || plan.cues[0]?.state !== 'read') {
    throw new Error(`no plan for ${cue}`);
  }
  const kept = new Set(instrument.kept.flatMap(({ samples }) => samples.map(headerIndex)));
  const { headers } = await readBankSamples(bank);
  return {
    kept: ascending(kept),
    // Not from the plan's own list: whatever it does not keep may not be heard.
    dropped: headers.flatMap((_, index) => (kept.has(index) ? [] : [index])),
    played: playedSamples(instrument),
  };
};
