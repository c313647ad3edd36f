import type { Plan, PlanInstrument } from '../keep/plan.ts';
import { byCodePoint } from '../terms/code-point-order.ts';
import type { Finding } from '../terms/finding.ts';
import { sha256 } from '../files/digest.ts';
import { bytesOf, type OutputFile } from '../trim/output-file.ts';
import type { BeforeAfter, Trim, TrimmedInstrument, TrimProof } from '../trim/trim.ts';
import type { PreparedTrim } from './prepare-trim.ts';
import { bytesOnDisk, trimTotal } from './trim-total.ts';

interface Outcome {
  readonly dryRun: boolean;
  readonly proof: TrimProof | null;
  readonly findings: readonly Finding[];
}

/** @param small the plan of the smaller instruments: what they are in memory */
export const trimResult = (
  prepared: PreparedTrim,
  small: Plan,
  { dryRun, proof, findings }: Outcome,
): Trim => {
  const { keep, full, accepted, outputs } = prepared;
  const instruments = full.instruments.map((one) => rowOf(prepared, one, small));
  return {
    schema: 'keepset/trim@1',
    dryRun,
    keep,
    accepted,
    instruments,
    files: outputs
      .map((file) => ({ path: file.path, bytes: bytesOf(file), sha256: digestOf(file) }))
      .sort((a, b) => byCodePoint(a.path, b.path)),
    total: trimTotal(prepared, instruments, small),
    proof,
    findings: [...prepared.findings, ...findings],
  };
};

const rowOf = (
  { template, sorted, placed, unwritten }: PreparedTrim,
  one: PlanInstrument,
  small: Plan,
): TrimmedInstrument => {
  const { id, machine, source, zones, samples, bytes } = one;
  const row = { id, machine, source, places: 0 };
  const before = { zones, samples, memory: bytes.full };
  if (sorted.unwritable.includes(id)) {
    const same = (value: number): BeforeAfter => ({ before: value, after: value });
    return {
      ...row,
      outcome: 'unwritable',
      path: null,
      zones: same(zones),
      samples: same(samples),
      disk: same(0),
      memory: same(bytes.full),
    };
  }
  const own = placed.find(({ definition }) => definition.instruments.includes(id));
  if (own === undefined) {
    const { path } = template.instruments.find((other) => other.id === id)!.source;
    const gone = (value: number): BeforeAfter => ({ before: value, after: 0 });
    return {
      ...row,
      outcome: 'unplayed',
      path: null,
      zones: gone(zones),
      samples: gone(samples),
      disk: gone(unwritten.get(path) ?? 0),
      memory: gone(bytes.full),
    };
  }
  const after = small.instruments.find((other) => other.id === id)!;
  const places = new Set(own.trimmed.places);
  const there = [...after.kept, ...after.dropped].filter(({ zone }) => places.has(zone)).length;
  return {
    ...row,
    outcome: 'trimmed',
    path: own.path,
    zones: { before: before.zones, after: after.zones - there },
    samples: { before: before.samples, after: after.samples },
    disk: { before: own.trimmed.bytesBefore, after: bytesOnDisk([own]) },
    memory: { before: before.memory, after: after.bytes.full },
    places: there,
  };
};

/** Of what was made as a whole, a person may change a part. */
const digestOf = ({ pieces: [first, ...rest] }: OutputFile): string | null =>
  first?.kind === 'bytes' && rest.length === 0 ? sha256(first.bytes) : null;
