import { parseMidi } from 'midi-file';
import { partsOf } from '../../dist/midi/parts.js';
import { readMidi } from '../../dist/midi/read-midi.js';
import { alternate, median, milliseconds, ratio, timed, times } from './measure.js';
import { childResult } from './processes.js';

/** (a) The reader, metas, tempo and parts included, against midi-file, an independent codec. */
export const readingRows = ({ from, cues }, { rounds, quick, say }) => {
  const all = alternate(
    {
      keepset: () => timed(() => cues.forEach(({ bytes, name }) => partsOf(readMidi(bytes, name)))),
      'midi-file': () => timed(() => cues.forEach(({ bytes }) => parseMidi(bytes))),
    },
    { rounds, warm: 60 },
  );
  const size = cues.reduce((sum, { bytes }) => sum + bytes.length, 0);
  const reached = ratio(all['midi-file'], all.keepset);
  const ordinary = {
    what: `reading ${cues.length} cues of ${from}, ${(size / 1e6).toFixed(2)} MB`,
    ours: milliseconds(median(all.keepset)),
    theirs: `midi-file ${milliseconds(median(all['midi-file']))}`,
    reached: `${times(reached)} as fast`,
    target: 'at least 4 x',
    met: reached >= 4,
  };
  return [ordinary, denseRow({ quick, say })];
};

const denseRow = ({ quick, say }) => {
  const row = { what: 'reading a dense cue of 20 MB', target: 'at least 20 x' };
  if (quick) return { ...row, ours: '', theirs: '', reached: 'skipped (--quick)', met: null };
  say('midi-file reads the dense cue once, in a process that may take 6 GiB');
  const ours = childResult(2048, 'dense', 'keepset', '7');
  const theirs = childResult(6144, 'dense', 'midi-file', '1');
  const failed = ours.failed ?? theirs.failed;
  if (failed !== undefined) {
    return { ...row, ours: '', theirs: '', reached: `failed: ${failed}`, met: null };
  }
  // It cleans up after itself in several threads, which the clock on the wall sees only once: so both.
  const gains = [
    theirs.cpu[0] / median(ours.cpu),
    theirs.wall[0] / median(ours.wall),
    theirs.cpu[0] / ours.cpu[0],
  ];
  const gibibytes = ({ memory }) => `${(memory / 2 ** 30).toFixed(1)} GiB`;
  return {
    ...row,
    ours: `${milliseconds(median(ours.cpu))}, ${gibibytes(ours)}`,
    theirs: `midi-file ${milliseconds(theirs.cpu[0])}, ${gibibytes(theirs)}`,
    reached: `${times(gains[0])} as fast (wall ${times(gains[1])}, first time ${times(gains[2])})`,
    met: Math.min(gains[0], gains[1]) >= 20,
  };
};
