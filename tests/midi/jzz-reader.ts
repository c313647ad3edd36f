import { createRequire } from 'node:module';
import type { RawCue, RawEvent } from './raw-cue.ts';

/** Bytes of a message, or none and `ff`, `dd` for a meta event; `tt` is the tick. */
interface JzzEvent extends ArrayLike<number> {
  readonly tt: number;
  readonly ff?: number;
  readonly dd?: string;
}

interface JzzFile extends ArrayLike<ArrayLike<JzzEvent>> {
  readonly type: number;
  readonly ppqn?: number;
  readonly fps?: number;
  readonly ppf?: number;
}

// The package has no types.
const require = createRequire(import.meta.url);
const JZZ = require('jzz') as {
  readonly MIDI: { readonly SMF: new (bytes: Uint8Array) => JzzFile };
};
(require('jzz-midi-smf') as (jzz: typeof JZZ) => void)(JZZ);

const toRaw = (event: JzzEvent): RawEvent => {
  const tick = event.tt;
  if (event.ff !== undefined) {
    const data = Array.from(event.dd ?? '', (letter) => letter.charCodeAt(0));
    return { tick, kind: 'meta', type: event.ff, data };
  }
  const [status = 0, ...data] = Array.from(event);
  return status < 0xf0
    ? { tick, kind: 'message', bytes: [status, ...data] }
    : { tick, kind: 'packet', status, data };
};

/** Reads with jzz-midi-smf. */
export const readWithJzz = (bytes: Uint8Array): RawCue => {
  const file = new JZZ.MIDI.SMF(bytes);
  return {
    format: file.type,
    division: file.ppqn ?? (0x100 - (file.fps ?? 0)) * 0x100 + (file.ppf ?? 0),
    tracks: Array.from(file, (track) => Array.from(track, toRaw)),
  };
};
