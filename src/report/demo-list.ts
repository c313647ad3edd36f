import { printable } from '../terms/printable.ts';

/** What was written where, and what to try on it. */
export const demoList = (folder: string, files: readonly string[]): string => {
  const at = printable(folder.replace(/\/+$/, ''));
  const [bank, table, template] = ['.sf2', '.csv', '.yaml'].map(
    (ending) => files.find((path) => path.endsWith(ending) && path !== 'tracks.csv') ?? '',
  );
  return [
    `An invented score is in ${at}:`,
    ...files.map((path) => `  ${at}/${path}`),
    '',
    'Try:',
    `  keepset usage ${at}/cues`,
    `  keepset plan --template ${at}/${template ?? ''}`,
    `  keepset plan ${at}/cues --instrument ${at}/${bank ?? ''}`,
    `  keepset inspect ${at}/${table ?? ''} --middle-c C4`,
    '',
  ].join('\n');
};
