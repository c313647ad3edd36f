/**
 * How fast the built program is, as ratios within one run on one machine, against the targets of the
 * design (section 12). Never a test: a busy machine is no defect. Times are CPU times.
 *
 *     npm run bench              all of it, some minutes
 *     npm run bench -- --quick   without the dense cue, fewer rounds
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { bytesRows } from './bytes-read.js';
import { checkRows } from './check.js';
import { headerRows } from './headers.js';
import { banks, ordinaryCues } from './material.js';
import { playbackRows } from './playback.js';
import { planningRows } from './planning.js';
import { readingRows } from './reading.js';
import { sfzRows } from './sfz.js';
import { startRows } from './start.js';
import { templateRows } from './template.js';
import { trimRows } from './trim.js';

const quick = process.argv.includes('--quick');
const options = { quick, rounds: quick ? 7 : 21, say: (text) => console.error(`  ${text}`) };
const folder = mkdtempSync(join(tmpdir(), 'keepset-bench-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

const cues = ordinaryCues();
const bankPaths = banks(folder);
const sections = [
  ['reading', () => readingRows(cues, options)],
  ['playback', () => playbackRows(cues, bankPaths, options)],
  ['start', () => startRows(options)],
  ['planning', () => planningRows(cues, folder, options)],
  ['template', () => templateRows(folder, options)],
  ['check', () => checkRows(folder, options)],
  ['headers', () => headerRows(folder, options)],
  ['sfz', () => sfzRows(folder, options)],
  ['trim', () => trimRows(folder, options)],
  ['bytes', () => bytesRows(cues, folder, [...bankPaths, join(folder, 'large.sf2')])],
];

console.error(`node ${process.version}, ${cpus().length} cores, load ${loadavg()[0].toFixed(1)}`);
const rows = [];
for (const [name, measure] of sections) {
  console.error(`${name} …`);
  rows.push(...(await measure()));
}

const titles = {
  what: '',
  ours: 'keepset',
  theirs: 'against',
  reached: 'reached',
  target: 'target',
};
const columns = Object.keys(titles);
const verdict = ({ met }) => (met === null ? '-' : met ? 'ok' : 'MISSED');
const table = [titles, ...rows];
const widths = columns.map((column) => Math.max(...table.map((row) => row[column].length)));
const line = (row) => columns.map((column, i) => row[column].padEnd(widths[i])).join('  ');
console.log(`\n${line(titles).trimEnd()}`);
for (const row of rows) console.log(`${line(row)}  ${verdict(row)}`);

const missed = rows.filter(({ met }) => met === false);
console.log(
  missed.length === 0
    ? '\nEvery target that was measured is reached.'
    : `\n${missed.length} of ${rows.filter(({ met }) => met !== null).length} targets MISSED:\n${missed.map(({ what, reached, target }) => `  ${what}: ${reached}, target ${target}`).join('\n')}`,
);
