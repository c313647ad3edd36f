import type { PlanInput } from '../keep/make-plan.ts';
import type { Plan } from '../keep/plan.ts';
import type { MadeReelMemory } from '../keep/reel/make-reel-memory.ts';
import type { Comparison, CueRests, Placement } from '../keep/reel/reel-memory.ts';
import { UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import type { Finding } from '../terms/finding.ts';

/** What a reel's memory is made of. */
export interface PreparedReel {
  readonly input: PlanInput;
  /** The disk as seen from the template's folder. */
  readonly files: Files;
  readonly keep: { readonly path: string; readonly sha256: string; readonly plan: Plan } | null;
  /** Cues as seen from the template's folder; null: usage was given in their place. */
  readonly cues: readonly string[] | null;
}

/**
 * How long a sound goes on after its key where the instrument does not say, in seconds: releases are
 * half a second to three (common practice).
 */
const unknownRelease = 3;

/** When the instruments of a cue play and rest. @throws {UsageError} when there are no cues to read */
export const restsOf = async (
  { input, files, cues }: PreparedReel,
  { memory: reel, loads }: MadeReelMemory,
  id: string,
): Promise<CueRests> => {
  if (cues === null) {
    throw new UsageError(
      'Usage files do not tell when instruments rest.',
      'Name the cues themselves in place of --usage.',
    );
  }
  const { readCueRests } = await import('./cue-rests.ts');
  const { template, instruments } = input;
  const { without, newest, split } = input.reel;
  const options = { cues, without, newest, split, isPartial: true };
  const { times, unreadable } = await readCueRests(files, template, instruments, id, options, {
    unknown: unknownRelease,
  });
  const place = reel.cues.findIndex((one) => one.id === id);
  const needed = new Map(
    reel.cues[place]!.instruments.flatMap((one) => (one.zones > 0 ? [[one.id, one] as const] : [])),
  );
  return {
    id,
    ...times,
    unreadable,
    assumedRelease: unknownRelease,
    instruments: times.instruments
      .flatMap((one) => {
        const need = needed.get(one.id);
        if (need === undefined) return [];
        const member = loads.members.find(({ instrument }) => instrument.id === one.id)!;
        const { loadRate } = member.player;
        return [
          {
            ...one,
            machine: need.machine,
            bytes: need.bytes,
            loadSeconds:
              loadRate === null ? null : Math.round((need.bytes / loadRate) * 1000) / 1000,
          },
        ];
      })
      .sort((a, b) => b.bytes - a.bytes),
  };
};

/** Where instruments would go so that everything fits, and what to write into the template. */
export const placementOf = async (
  { input: { template }, files }: PreparedReel,
  { memory: reel, loads, whole }: MadeReelMemory,
): Promise<Placement> => {
  const { placement } = await import('../keep/reel/place.ts');
  const machines = reel.machines.map(({ id, budget }) => ({ id, budget }));
  const placed = await placement(loads, whole, machines);
  if (template.path === null || placed.moves.length === 0) return { ...placed, lines: [] };
  const { placedLines } = await import('../template/placed-lines.ts');
  const name = template.path.slice(template.path.lastIndexOf('/') + 1);
  const text = new TextDecoder().decode(await files.read(name));
  return { ...placed, lines: placedLines(text, placed.moves) };
};

/** What players show against the estimates; nothing without a table. */
export const comparisonOf = async (
  disk: Files,
  { subjects, loads, whole }: MadeReelMemory,
  { template }: PlanInput,
  file: string | null,
): Promise<{
  readonly comparison: Comparison | null;
  readonly findings: readonly Finding[];
}> => {
  if (file === null) return { comparison: null, findings: [] };
  const { readLoaded } = await import('../memory/readings/read-loaded.ts');
  const { compareReadings } = await import('../keep/reel/compare.ts');
  const table = readLoaded(
    await disk.read(file),
    file,
    subjects.map(({ instrument, tally }) => ({
      id: instrument.id,
      copies: tally.copies.map(({ name }) => name),
    })),
  );
  const compared = compareReadings(
    table.rows,
    subjects.map(({ instrument }, m) => ({
      id: instrument.id,
      loadable: loads.members[m]!,
      need: loads.need(m, whole),
    })),
    template.path === null ? null : [...new Set(template.instruments.map(({ player }) => player))],
    file,
  );
  return {
    comparison: { file, ...compared.comparison },
    findings: [...table.findings, ...compared.findings],
  };
};
