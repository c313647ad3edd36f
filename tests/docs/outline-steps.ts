import { rmSync } from 'node:fs';
import { makeDemo } from './demo-folder.ts';
import { stepsOf } from './page-steps.ts';
import { markdownTable } from './schema-tables.ts';
import { workFolder } from './work-folder.ts';

/** The lines that the page adds one after the other to its first outline. */
const added = [
  { key: '', row: 'nothing but names, ranges and `measured`' },
  { key: 'sampled', row: 'and `sampled: C1..A4 every 3`, or as the manual says' },
  { key: 'stretch', row: 'and `stretch: down`' },
  { key: 'layers', row: 'and `layers: { cc1: [0-44, 38-88, 82-127] }`, `layers: 3`' },
  { key: 'round-robins', row: 'and `round-robins: 1`, `{ count: 4, borrow: 2 }`' },
];

/** What a plan keeps after each line: the last outline of the page with the later lines taken out. */
export const outlineSteps = async (page: string): Promise<string> => {
  const files = stepsOf(page).flatMap((step) => (step.kind === 'file' ? [step] : []));
  const outline = files.findLast(({ path }) => path === 'cello.yaml');
  const template = files.find(({ path }) => path === 'vc.yaml');
  if (outline === undefined || template === undefined) throw new Error('no outline on this page');
  const demo = await makeDemo();
  const folder = workFolder(demo);
  folder.write(template.path, template.text);
  const rows: string[][] = [];
  for (const [i, { row }] of added.entries()) {
    const later = added.slice(i + 1).map(({ key }) => `    ${key}: `);
    const lines = outline.text
      .split('\n')
      .filter((line) => !later.some((start) => line.startsWith(start)));
    folder.write(outline.path, lines.join('\n'));
    const { text } = await folder.run(`keepset plan --template ${template.path}`);
    const [, zones = '', kept = '', all = ''] =
      /Keep (.* of .*) zones: (.*) of (.*?);/.exec(text) ?? [];
    rows.push([row, zones, `${kept} of ${all}`]);
  }
  folder.remove();
  rmSync(demo, { recursive: true, force: true });
  return markdownTable(['lines', 'zones', 'stays'], rows);
};
