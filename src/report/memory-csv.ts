import type { CueInstrument, CueMemory, ReelMemory } from '../keep/reel/reel-memory.ts';
import { csvOf, type CsvColumn } from './csv-columns.ts';

interface Row {
  readonly cue: CueMemory;
  readonly instrument: CueInstrument;
  /** Of its machine in this cue; null without a budget. */
  readonly fits: boolean | null;
}

const columns: readonly CsvColumn<Row>[] = [
  { title: 'cue', value: ({ cue }) => cue.id },
  { title: 'machine', value: ({ instrument }) => instrument.machine },
  { title: 'instrument', value: ({ instrument }) => instrument.id },
  { title: 'bytes', value: ({ instrument }) => instrument.bytes },
  { title: 'low', value: ({ instrument }) => instrument.low },
  { title: 'high', value: ({ instrument }) => instrument.high },
  { title: 'basis', value: ({ instrument }) => instrument.basis },
  { title: 'load', value: ({ instrument }) => instrument.load },
  { title: 'may-go', value: ({ instrument }) => instrument.mayGo },
  { title: 'zones', value: ({ instrument }) => instrument.zones },
  { title: 'fits', value: ({ fits }) => (fits === null ? null : fits ? 'yes' : 'no') },
];

/**
 * The cues of a reel with a row for each instrument of which one needs something. `fits` is said of
 * the machine with all that the cue needs there. Samples that instruments share count in each row.
 */
export const memoryCsv = ({ cues }: ReelMemory): string =>
  csvOf(
    columns,
    cues.flatMap((cue) =>
      cue.instruments.map((instrument): Row => {
        const machine = cue.machines.find(({ id }) => id === instrument.machine);
        return { cue, instrument, fits: machine?.fits ?? null };
      }),
    ),
  );
