import { basename } from 'node:path';
import { DiskFiles } from '../../dist/files/disk-files.js';
import { readSoundFont } from '../../dist/instruments/soundfont/read.js';
import { partsOf } from '../../dist/midi/parts.js';
import { readMidi } from '../../dist/midi/read-midi.js';
import { asExported } from '../../dist/playback/play-copy.js';
import { playCue } from '../../dist/playback/play-cue.js';
import { RouteLog } from '../../dist/template/routes/route-log.js';
import { routeScore } from '../../dist/template/routes/route-score.js';
import { singleTemplate } from '../../dist/template/single.js';
import { denseCue } from './dense-cue.js';
import { alternate, median, milliseconds, ratio, timed, times } from './measure.js';

const play = (file, score, parts, bank) => {
  const instruments = new Map([[bank.id, bank]]);
  const template = singleTemplate(bank.id, {
    kind: 'soundfont',
    path: bank.source,
    preset: null,
  });
  const routed = routeScore(template, file.cue, score, parts, 0, instruments, new RouteLog());
  playCue(file, score, parts, routed, instruments, asExported);
};

/** Reading cues and playing them, in turn. */
const compare = (what, cues, bank, options) => {
  const read = ({ bytes, name }) => {
    const score = readMidi(bytes, name);
    return { score, parts: partsOf(score) };
  };
  const ready = cues.map((cue) => {
    const file = { cue: cue.name, path: cue.name, sha256: '', version: null, file: 0 };
    return { file, ...read(cue) };
  });
  const all = alternate(
    {
      reading: () => timed(() => cues.forEach(read)),
      playing: () =>
        timed(() => ready.forEach(({ file, score, parts }) => play(file, score, parts, bank))),
    },
    options,
  );
  const reached = ratio(all.playing, all.reading);
  return {
    what,
    ours: milliseconds(median(all.playing)),
    theirs: `reading ${milliseconds(median(all.reading))}`,
    reached: `${times(reached)} its time`,
    target: 'at most 1 x',
    met: reached <= 1,
  };
};

/** (b) Playback through a bank, tracks merged, against reading the same cues. */
export const playbackRows = async ({ from, cues }, bankPaths, { rounds, quick }) => {
  const dense = quick ? [] : [{ name: 'dense', bytes: denseCue() }];
  const rows = [];
  for (const path of bankPaths) {
    const bank = await readSoundFont(new DiskFiles(), path, null, () => '');
    const through = `through ${basename(path)}, ${bank.zones.length} zones`;
    rows.push(compare(`playing ${from} ${through}`, cues, bank, { rounds, warm: 60 }));
    if (quick) continue;
    rows.push(compare(`playing the dense cue ${through}`, dense, bank, { rounds: 5, warm: 1 }));
  }
  return rows;
};
