import { printable } from '../terms/printable.ts';

/** What was written where, and what to try on it. */
export const demoList = (folder: string, files: readonly string[]): string => {
  const at = printable(folder.replace(/\/+$/, ''));
  const bank = files.find((path) => path.endsWith('.sf2')) ?? '';
  return [
    `An invented score is in ${at}:`,
    ...files.map((path) => `  ${at}/${path}`),
    '',
    'Try:',
    `  keepset usage ${at}/cues`,
    `  keepset plan ${at}/cues --instrument ${at}/${bank}`,
    '',
  ].join('\n');
};
