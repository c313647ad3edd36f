import { stateWords } from '../trim/worklist/ledger/ledger.ts';
import type { RecordedAction, Worklist, WorklistAction } from '../trim/worklist/worklist.ts';
import { csvOf, type CsvColumn } from './csv-columns.ts';
import { listed, span, type CsvValue } from './csv.ts';
import { layerWords, unitWords } from './worklist-words.ts';

/** A step that is open, with its machine; or one that is done or void, of which there is no more. */
type Row =
  | { readonly state: 'open'; readonly action: WorklistAction; readonly machine: string }
  | { readonly state: 'done' | 'void'; readonly action: RecordedAction };

const column = (
  title: string,
  value: (action: WorklistAction, machine: string) => CsvValue,
): CsvColumn<Row> => ({
  title,
  value: (row) => (row.state === 'open' ? value(row.action, row.machine) : null),
});

/** The first five are those of the record, so that this table can be one. */
const columns: readonly CsvColumn<Row>[] = [
  { title: 'number', value: ({ action }) => action.number },
  { title: 'action', value: ({ action }) => action.key },
  { title: 'done', value: ({ state }) => stateWords[state] },
  { title: 'bytes', value: ({ action }) => action.seen },
  { title: 'note', value: ({ action }) => action.note },
  column('machine', (_, machine) => machine),
  column('instrument', ({ instrument }) => instrument),
  column('copy', ({ copy }) => copy),
  column('spare-copies', ({ spareCopies }) => (spareCopies === 0 ? null : spareCopies)),
  column('articulation', ({ unit }) => listed(unit.articulations)),
  column('layer', ({ unit }) => (unit.layer === null ? '' : layerWords(unit.layer, span))),
  column('microphone', ({ unit }) => unitWords(unit).microphone),
  column('do', ({ does }) => does),
  column('keeps-keys', ({ keeps }) => (keeps === null ? null : listed(keeps.keys.map(span)))),
  column('keeps-layers', ({ keeps }) =>
    keeps === null
      ? null
      : listed(keeps.layers.map((layer) => layerWords(layer, span)).filter((text) => text !== '')),
  ),
  // Without a figure where nobody knows the sizes.
  column('frees', ({ frees, unknownSamples }) => (unknownSamples > 0 ? null : frees)),
  column('total', ({ total, unknownSamples }) => (unknownSamples > 0 ? null : total)),
  column('unknown-samples', ({ unknownSamples }) => (unknownSamples > 0 ? unknownSamples : null)),
];

/**
 * A row for each step in the order of the list, those that are done after them and those that are
 * void last. With its first columns it can be handed to `--loaded`: no number is given away again.
 */
export const worklistCsv = ({ machines, done, void: gone }: Worklist): string =>
  csvOf<Row>(columns, [
    ...machines.flatMap(({ id, actions }): readonly Row[] =>
      actions.map((action) => ({ state: 'open', action, machine: id })),
    ),
    ...done.map((action): Row => ({ state: 'done', action })),
    ...gone.map((action): Row => ({ state: 'void', action })),
  ]);
