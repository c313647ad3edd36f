import { printable } from '../terms/printable.ts';
import { plural } from './format.ts';

/** Folders with more files than this are told by their number. */
const most = 16;

/** Files, or for folders that hold a great many of them how many there are. */
const folded = (files: readonly string[]): readonly string[] => {
  const folderOf = (path: string): string => path.slice(0, path.lastIndexOf('/') + 1);
  const counts = new Map<string, number>();
  for (const path of files) counts.set(folderOf(path), (counts.get(folderOf(path)) ?? 0) + 1);
  const lines = files.map((path) => {
    const folder = folderOf(path);
    const count = counts.get(folder)!;
    return folder !== '' && count > most ? `${folder} (${plural(count, 'file')})` : path;
  });
  return [...new Set(lines)];
};

/** What was written where, and what to try on it. */
export const demoList = (folder: string, files: readonly string[]): string => {
  const at = printable(folder.replace(/\/+$/, ''));
  const [bank, table, template, sfz] = ['.sf2', '.csv', '.yaml', '.sfz'].map(
    (ending) => files.find((path) => path.endsWith(ending) && path !== 'tracks.csv') ?? '',
  );
  return [
    `An invented score is in ${at}:`,
    ...folded(files).map((line) => `  ${at}/${line}`),
    '',
    'Try:',
    `  keepset usage ${at}/cues`,
    `  keepset plan --template ${at}/${template ?? ''}`,
    `  keepset plan ${at}/cues --instrument ${at}/${bank ?? ''}`,
    `  keepset plan --template ${at}/sfz.yaml`,
    `  keepset inspect ${at}/${sfz ?? ''}`,
    `  keepset inspect ${at}/${table ?? ''} --middle-c C4`,
    '',
  ].join('\n');
};
