import { readFile } from 'node:fs/promises';
import { readBankSamples } from './bank-samples.ts';
import { keepset } from './trimmed-set.ts';

/** The part of `keepset/plan@1` and `keepset/primer@1` that the proof uses. */
interface KeptZone {
  readonly zone: number;
  readonly samples: readonly string[];
  readonly reasons: readonly string[];
}

interface PlanJson {
  readonly instruments: readonly { readonly id: string; readonly kept: readonly KeptZone[] }[];
}

interface PrimerJson {
  readonly schema: string;
  readonly seconds: number;
  readonly reelSeconds: number;
  readonly excerpts: readonly unknown[];
  readonly notPrimed: readonly { readonly zone: number; readonly because: string }[];
  readonly machines: readonly {
    readonly instruments: readonly {
      readonly zones: number;
      readonly synthesised: number;
      readonly excerpted: number;
      readonly notPrimed: number;
    }[];
  }[];
}

/** A primer as the command wrote it for one bank, and the bank's samples by what becomes of them. */
export interface PrimedBank {
  readonly bank: string;
  /** The primer. */
  readonly file: string;
  readonly seconds: number;
  readonly reelSeconds: number;
  readonly zones: number;
  readonly excerpts: number;
  readonly kept: readonly number[];
  readonly dropped: readonly number[];
  /** Samples of zones with the reason `played` that the primer says it loads. */
  readonly primed: readonly number[];
  /** Zones with the reason `played` that it says it does not load. */
  readonly playedNotPrimed: readonly number[];
}

const headerIndex = (name: string): number => Number(/^(\d+):/.exec(name)![1]);

const ascending = (set: Iterable<number>): number[] => [...set].sort((a, b) => a - b);

/**
 * Plans cues on one bank and makes their primer, through the command line as a user does.
 *
 * @param out without an ending; the keep file and the primer are written there
 */
export const primeBank = async (
  cues: readonly string[],
  bank: string,
  out: string,
): Promise<PrimedBank> => {
  const [keep, file] = [`${out}.json`, `${out}.mid`];
  await keepset('plan', ...cues, '--instrument', bank, '-o', keep);
  const said = await keepset('primer', '--keep', keep, '-o', file, '--format', 'json');
  const primer = JSON.parse(said) as PrimerJson;
  if (primer.schema !== 'keepset/primer@1') throw new Error(`not a primer: ${said}`);
  await keepset('primer', '--keep', keep, '--verify', file);
  const plan = JSON.parse(await readFile(keep, 'utf8')) as PlanJson;
  const zones = plan.instruments.flatMap((one) => one.kept);
  const missed = new Set(primer.notPrimed.map(({ zone }) => zone));
  const played = zones.filter(({ reasons }) => reasons.includes('played'));
  const kept = new Set(zones.flatMap(({ samples }) => samples.map(headerIndex)));
  const { headers } = await readBankSamples(bank);
  return {
    bank,
    file,
    seconds: primer.seconds,
    reelSeconds: primer.reelSeconds,
    zones: primer.machines
      .flatMap(({ instruments }) => instruments)
      .reduce((sum, one) => sum + one.zones, 0),
    excerpts: primer.excerpts.length,
    kept: ascending(kept),
    dropped: headers.flatMap((_, index) => (kept.has(index) ? [] : [index])),
    primed: ascending(
      new Set(
        played
          .filter(({ zone }) => !missed.has(zone))
          .flatMap(({ samples }) => samples.map(headerIndex)),
      ),
    ),
    playedNotPrimed: ascending(played.map(({ zone }) => zone).filter((zone) => missed.has(zone))),
  };
};
