import type { Instrument } from '../instruments/instrument.ts';
import type { Plan, PlanInstrument } from '../keep/plan.ts';
import type { InstrumentSource, Template, TemplateInstrument } from '../template/template.ts';
import { plainPath } from '../instruments/sfz/text/paths.ts';
import { trimSetOf } from './keep-trim-set.ts';
import type { TrimSet } from './trim-set.ts';

/** A definition that is rewritten, for one instrument of the template or for several. */
export interface Definition {
  readonly kind: Exclude<InstrumentSource['kind'], 'zone-table' | 'outline'>;
  /** As seen from the template's folder. */
  readonly path: string;
  /** Ids of the instruments that play what is written of it. */
  readonly instruments: readonly string[];
  readonly set: TrimSet;
}

/** What becomes of the instruments of a template. */
export interface Sorted {
  readonly definitions: readonly Definition[];
  /** Ids of those of which nothing stays, and of those whose files can't be rewritten. */
  readonly unplayed: readonly string[];
  readonly unwritable: readonly string[];
}

/**
 * Sorts instruments by what is written for them. Instruments of one machine that share samples in memory
 * go on sharing them: one file for all. Any other gets a file with nothing but its own.
 */
export const sortInstruments = (
  { instruments: planned }: Plan,
  { instruments }: Template,
  loaded: ReadonlyMap<string, Instrument>,
): Sorted => {
  const unplayed: string[] = [];
  const unwritable: string[] = [];
  const groups = new Map<string, Definition>();
  for (const one of instruments) {
    const plan = planned.find(({ id }) => id === one.id)!;
    const { kind, path } = one.source;
    if (kind === 'zone-table' || kind === 'outline') {
      unwritable.push(one.id);
      continue;
    }
    const set = trimSetOf(plan, loaded.get(one.id)!);
    if (set.loaded.size === 0 && set.silent.size === 0) {
      unplayed.push(one.id);
      continue;
    }
    const key = groupOf(one, plan);
    const before = groups.get(key);
    groups.set(
      key,
      before === undefined
        ? { kind, path, instruments: [one.id], set }
        : {
            ...before,
            instruments: [...before.instruments, one.id],
            set: union(before.set, set),
          },
    );
  }
  return { definitions: [...groups.values()], unplayed, unwritable };
};

const groupOf = ({ id, machine, source }: TemplateInstrument, { shares }: PlanInstrument): string =>
  JSON.stringify([machine, plainPath(source.path), ...(shares === 'machine' ? [] : [id])]);

/** A zone that any of them needs with its samples keeps them. */
const union = (a: TrimSet, b: TrimSet): TrimSet => {
  const both = (x: ReadonlySet<number>, y: ReadonlySet<number>) => new Set([...x, ...y]);
  const loaded = both(a.loaded, b.loaded);
  return {
    loaded,
    silent: new Set([...both(a.silent, b.silent)].filter((zone) => !loaded.has(zone))),
    presetZones: both(a.presetZones, b.presetZones),
    programs: both(a.programs, b.programs),
  };
};
