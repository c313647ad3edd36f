import type { DoneAction, Worklist, WorklistAction } from '../trim/worklist/worklist.ts';
import { csvOf, type CsvColumn } from './csv-columns.ts';
import { listed, span, type CsvValue } from './csv.ts';
import { layerWords, unitWords } from './worklist-words.ts';

/** A step that is open, with its machine; or one that is done, of which the record has no more. */
type Row =
  | { readonly done: false; readonly action: WorklistAction; readonly machine: string }
  | { readonly done: true; readonly action: DoneAction };

const column = (
  title: string,
  value: (action: WorklistAction, machine: string) => CsvValue,
): CsvColumn<Row> => ({
  title,
  value: (row) => (row.done ? null : value(row.action, row.machine)),
});

/** The first five are those of the record, so that this table can be one. */
const columns: readonly CsvColumn<Row>[] = [
  { title: 'number', value: ({ action }) => action.number },
  { title: 'action', value: ({ action }) => action.key },
  { title: 'done', value: ({ done }) => (done ? 'yes' : null) },
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
  column('frees', ({ frees }) => frees),
  column('total', ({ total }) => total),
];

/**
 * A row for each step in the order of the list, those that are done last. With its first columns it
 * can be handed to `--loaded`.
 */
export const worklistCsv = ({ machines, done }: Worklist): string =>
  csvOf<Row>(columns, [
    ...machines.flatMap(({ id, actions }): readonly Row[] =>
      actions.map((action) => ({ done: false, action, machine: id })),
    ),
    ...done.map((action): Row => ({ done: true, action })),
  ]);
