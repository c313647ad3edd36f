import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { MemoryFiles } from '../../dist/files/memory-files.js';
import { gatherArticulations } from '../../dist/instruments/sfz/program/articulations.js';
import { compileSfz, namedRegions } from '../../dist/instruments/sfz/program/compile.js';
import { readSfz } from '../../dist/instruments/sfz/read.js';
import { loadSamples } from '../../dist/instruments/sfz/samples/sample-files.js';
import { structureOf } from '../../dist/instruments/sfz/structure/regions.js';
import { readDocument } from '../../dist/instruments/sfz/text/read-document.js';
import { reachedClasses } from '../../dist/keep/reach.js';
import { partsOf } from '../../dist/midi/parts.js';
import { readMidi } from '../../dist/midi/read-midi.js';
import { asExported } from '../../dist/playback/play-copy.js';
import { playCue } from '../../dist/playback/play-cue.js';
import { RouteLog } from '../../dist/template/routes/route-log.js';
import { routeScore } from '../../dist/template/routes/route-score.js';
import { singleTemplate } from '../../dist/template/single.js';
import { alternate, median, milliseconds, ratio, timed, timedLater, times } from './measure.js';
import { phraseCue } from './phrase-cue.js';
import { child, node, program } from './processes.js';
import { largeSfz, tinyWav } from './sfz-material.js';

const path = 'large.sfz';

/** The text as bytes in memory; its samples are not there, which is only a finding. */
const inMemory = (text) => ({ files: new MemoryFiles({ [path]: text }) });

/** Reading and compiling the text, without its samples, against what cutting it up costs alone. */
const textRows = async (text, { rounds }) => {
  const { files } = inMemory(text);
  const bytes = new TextEncoder().encode(text);
  const { uses } = await loadSamples(files, path, structureOf(await readDocument(files, path)));
  const tasks = {
    keepset: async () => {
      const structure = structureOf(await readDocument(files, path));
      const regions = namedRegions(structure);
      const { starts } = compileSfz(
        regions,
        structure,
        uses,
        gatherArticulations(regions).ofRegion,
      );
      if (starts.length < 20_000) throw new Error('regions are missing');
    },
    lines: () => new TextDecoder().decode(bytes).split('\n').length,
    opcodes: () => [...new TextDecoder().decode(bytes).matchAll(/(\w+)=(\S+)/g)].length,
  };
  const names = Object.keys(tasks);
  const all = Object.fromEntries(names.map((name) => [name, []]));
  for (let round = -1; round < Math.min(rounds, 5); round += 1) {
    for (const name of round % 2 === 0 ? names : names.toReversed()) {
      const time = await timedLater(tasks[name]);
      if (round >= 0) all[name].push(time);
    }
  }
  return ['lines', 'opcodes'].map((cut) => ({
    what: `SFZ of 20 000 regions, ${(bytes.length / 1e6).toFixed(1)} MB: reading and compiling`,
    ours: milliseconds(median(all.keepset)),
    theirs: `cutting it into ${cut} ${milliseconds(median(all[cut]))}`,
    reached: `${times(ratio(all.keepset, all[cut]))} its time`,
    target: '',
    met: null,
  }));
};

/** Playing the cue, and finding what it reaches, against reading it. */
const cueRows = async (text, bytes, { rounds }) => {
  const sfz = await readSfz(inMemory(text).files, path, () => '');
  const instruments = new Map([[sfz.id, sfz]]);
  const template = singleTemplate(sfz.id, { kind: 'sfz', path });
  const file = { cue: '1m1', path: '1m1.mid', sha256: '', version: null, file: 0 };
  const read = () => {
    const score = readMidi(bytes, file.path);
    return { score, parts: partsOf(score) };
  };
  const play = ({ score, parts }) => {
    const routed = routeScore(template, file.cue, score, parts, 0, instruments, new RouteLog());
    return playCue(file, score, parts, routed, instruments, asExported);
  };
  const reach = (usage) => {
    let starts = 0;
    for (const reached of reachedClasses(sfz, [usage])) starts += reached.starts.length;
    if (starts === 0) throw new Error('nothing is reached');
  };
  const ready = read();
  const usage = play(ready);
  const all = alternate(
    {
      reading: () => timed(read),
      playing: () => timed(() => play(ready)),
      reaching: () => timed(() => reach(usage)),
    },
    { rounds: Math.min(rounds, 3), warm: 1 },
  );
  const reading = `reading ${milliseconds(median(all.reading))}`;
  const row = (what, name, target) => ({
    what: `${what} a cue of 1 000 000 events through it`,
    ours: milliseconds(median(all[name])),
    theirs: reading,
    reached: `${times(ratio(all[name], all.reading))} its time`,
    target: target === null ? '' : `at most ${target} x`,
    met: target === null ? null : ratio(all[name], all.reading) <= target,
  });
  return [row('playing', 'playing', 1), row('finding what is reached by', 'reaching', null)];
};

/** The whole plan against reading the cue, as whole processes. */
const planRow = (text, samples, bytes, folder, { rounds }) => {
  const [place, reel] = [join(folder, 'sfz'), join(folder, 'sfz-reel')];
  mkdirSync(place);
  mkdirSync(reel);
  const root = join(place, path);
  writeFileSync(root, text);
  for (const sample of samples) writeFileSync(join(place, sample), tinyWav());
  writeFileSync(join(reel, '1m1.mid'), bytes);
  const keep = join(folder, 'sfz-keep.json');
  const all = alternate(
    {
      start: () => node('-e', '0'),
      reading: () => node(child, 'reel', 'keepset', reel),
      planning: () => node(program, 'plan', reel, '-i', root, '-o', keep, '--quiet'),
    },
    { rounds: Math.min(rounds, 3), warm: 1 },
  );
  const start = median(all.start);
  const over = (name) => median(all[name]) - start;
  return {
    what: `plan on that cue and that SFZ, less start-up of ${milliseconds(start)}`,
    ours: milliseconds(over('planning')),
    theirs: `reading ${milliseconds(over('reading'))}`,
    reached: `${times(over('planning') / over('reading'))} its time`,
    target: '',
    met: null,
  };
};

/** (f) A large SFZ with switches, fades and releases, and a long cue that uses all of it. */
export const sfzRows = async (folder, options) => {
  const { text, samples } = largeSfz();
  const bytes = phraseCue();
  return [
    ...(await textRows(text, options)),
    ...(await cueRows(text, bytes, options)),
    planRow(text, samples, bytes, folder, options),
  ];
};
