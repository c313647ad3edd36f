import { wantedKey } from '../primer/excerpts/wanted-zone.ts';
import type {
  NotPrimed,
  Primer,
  PrimerChance,
  PrimerExcerpt,
  PrimerInstrument,
} from '../primer/primer.ts';
import { finding, type Finding } from '../terms/finding.ts';
import type { PreparedPrimer } from './prepare-primer.ts';

/** What is told of a primer. */
export const primerResult = (prepared: PreparedPrimer, sha256: string): Primer => {
  const { keep, plan, template, composed, base, accepted } = prepared;
  const { written } = composed.draft;
  const notPrimed = notPrimedOf(prepared);
  return {
    schema: 'keepset/primer@1',
    keep: { path: keep.path, sha256: keep.sha256 },
    base: { cue: base.cue, path: base.path },
    seconds: rounded(written.seconds),
    reelSeconds: rounded(plan.cues.reduce((sum, { seconds }) => sum + seconds, 0)),
    notes: written.notes,
    sha256,
    machines: template.machines
      .map(({ id }) => ({
        id,
        seconds: rounded(written.machines.get(id) ?? 0),
        instruments: instrumentsOf(prepared, id),
      }))
      .filter(({ instruments }) => instruments.length > 0),
    excerpts: excerptsOf(prepared),
    notPrimed,
    chances: chancesOf(prepared),
    accepted,
    findings: [...addedFindings(prepared), ...notPrimedFindings(notPrimed, keep.path)],
  };
};

const rounded = (seconds: number): number => Math.round(seconds * 1000) / 1000;

const instrumentsOf = (
  { plan, composed }: PreparedPrimer,
  machine: string,
): readonly PrimerInstrument[] =>
  plan.instruments
    .filter((one) => one.machine === machine)
    .flatMap((one): readonly PrimerInstrument[] => {
      const { zones, loaded, missing } = composed.draft.compared.get(one.id)!;
      if (zones === 0) return [];
      const made = loaded.filter(({ copy, zone }) =>
        composed.made.has(wantedKey({ instrument: one.id, copy, zone })),
      );
      return [
        {
          id: one.id,
          copies: one.copies.length,
          zones,
          synthesised: made.length,
          excerpted: loaded.length - made.length,
          notPrimed: missing.length,
          bytes: one.bytes.kept,
        },
      ];
    });

const excerptsOf = ({ composed, usage }: PreparedPrimer): readonly PrimerExcerpt[] =>
  composed.excerpts.map(({ run }, i) => {
    const file = usage[run.file]!;
    const instruments = new Set(
      [...run.copies].map((key) => (JSON.parse(key) as readonly [string, string])[0]),
    );
    return {
      cue: file.cue,
      bars: [run.from, run.to],
      at: rounded(composed.draft.written.excerptsAt[i] ?? 0),
      instruments: [...instruments],
      zones: run.zones.size,
    };
  });

const notPrimedOf = ({ composed, instruments }: PreparedPrimer): readonly NotPrimed[] =>
  composed.notPrimed.map(({ instrument, copy, zone, because }) => {
    const { id, key } = instruments.get(instrument)!.zones[zone]!;
    return { instrument, copy, zone: id, key, because };
  });

const chancesOf = ({ composed }: PreparedPrimer): readonly PrimerChance[] =>
  composed.syntheses.flatMap(({ group, chances }) =>
    group.copies.flatMap(({ instrument }, i): readonly PrimerChance[] => {
      const chance = chances[i] ?? null;
      return chance === null ? [] : [{ instrument: instrument.id, ...chance }];
    }),
  );

const addedFindings = ({ composed, keep }: PreparedPrimer): readonly Finding[] =>
  composed.copies.tracks.added.map(({ track, cue }) =>
    finding('note', 'primer-track-added', keep.path, { track, cue }),
  );

const notPrimedFindings = (every: readonly NotPrimed[], path: string): readonly Finding[] => {
  const all = every.filter(({ because }) => because !== 'tied');
  if (all.length === 0) return [];
  const instruments = [...new Set(all.map(({ instrument }) => instrument))];
  return [finding('warning', 'primer-not-primed', path, { zones: all.length, instruments })];
};
