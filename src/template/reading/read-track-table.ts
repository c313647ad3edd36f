import { fold } from '../../notation/fold.ts';
import { largestTable } from '../../notation/csv.ts';
import { InputError } from '../../terms/errors.ts';
import type { Files } from '../../terms/files.ts';
import { beside } from './beside.ts';
import { checkDeclared } from './declared.ts';
import { Once } from '../../notation/document/once.ts';
import { readTracks } from '../routes/read-tracks.ts';
import type { Reader } from '../../notation/document/reader.ts';
import type { Route } from '../route.ts';
import { shapes } from './shapes.ts';
import { shortened } from '../../notation/document/shortened.ts';

/** The rules of the table of tracks, and its bytes; none of either where there is no table. */
export interface TrackTable {
  readonly routes: readonly Route[];
  readonly bytes: readonly Uint8Array[];
}

const nothing: TrackTable = { routes: [], bytes: [] };

/** Headings by our columns; no heading for two of them. */
const readColumns = (reader: Reader): Readonly<Record<string, string>> => {
  const columns = reader.readTop(shapes.columns, 'columns') ?? {};
  const entry = reader.top('columns');
  const once = new Once(reader.faults, 'heading');
  const headings: Record<string, string> = {};
  for (const [column, heading] of Object.entries(columns)) {
    once.see(fold(heading), heading, reader.placeIn(entry!.value, column));
    headings[column] = heading;
  }
  if (entry !== undefined && reader.top('tracks') === undefined) {
    reader.faults.note(entry.at, 'template-key-idle', { path: ['columns'], reason: 'no-tracks' });
  }
  return headings;
};

/** Reads the table that `tracks:` names, with the headings that `columns:` gives. */
export const readTrackTable = async (
  reader: Reader,
  files: Files,
  ids: ReadonlySet<string>,
): Promise<TrackTable> => {
  const columns = readColumns(reader);
  const tracks = reader.readTop(shapes.tracks, 'tracks');
  if (tracks === null) return nothing;
  const path = beside(reader.faults.file, tracks.file);
  let bytes: Uint8Array;
  try {
    // One byte more than can be read shows that there are too many.
    bytes = await files.read(path, 0, largestTable + 1);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const reason = error.finding.code;
    const at = reader.placeIn(reader.root, 'tracks');
    reader.faults.add(at, 'template-tracks', () => ({ path: shortened(path), reason }));
    return nothing;
  }
  const { routes, problems } = readTracks(bytes, path, columns);
  for (const problem of problems) reader.faults.take(problem);
  for (const { outcome, file, at } of routes) {
    for (const id of outcome.kind === 'play' ? outcome.instruments : []) {
      checkDeclared(reader, 'instrument', id, at, ids, file);
    }
  }
  return { routes, bytes: [bytes] };
};
