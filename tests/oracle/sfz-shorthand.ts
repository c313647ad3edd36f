/** Instruments, cues and results of the SFZ player in one line each, for hand-worked tables. */
import type { SfzCue, SfzData, SfzDoubts, SfzEvent, SfzHeader, SfzOpcode } from './sfz-data.ts';

/**
 * `<control> set_cc1=9 <region> key=60 <region> key=62`. Text before the first header belongs to a
 * region of its own. A region without a `sample` anywhere gets one; `sample=` takes it away again.
 */
export function instrument(text: string): SfzData {
  const headers: { name: string; opcodes: SfzOpcode[] }[] = [];
  for (const word of `${text.startsWith('<') ? '' : '<region> '}${text}`.split(/\s+/)) {
    if (word.startsWith('<')) {
      headers.push({ name: word.slice(1, -1), opcodes: [] });
      continue;
    }
    const [name = '', ...value] = word.split('=');
    headers.at(-1)?.opcodes.push([name, value.join('=')]);
  }
  const sounds = text.includes('sample=');
  const withSample = ({ name, opcodes }: SfzHeader): SfzHeader =>
    name === 'region' && !sounds
      ? { name, opcodes: [['sample', 'a.wav'], ...opcodes] }
      : { name, opcodes };
  return { headers: headers.map(withSample) };
}

/**
 * `on60/90 cc1=20 | off60@3`: events of one tick stand together, `|` goes on by 100 ticks and a tenth
 * of a second. `/` is a velocity (else 100), `@` a channel from 0. Also bend=, at=, pat60=, pc5, and
 * bpm= for the tempo.
 */
export function cue(text: string): SfzCue {
  const events: SfzEvent[] = [];
  const tempos: { tick: number; bpm: number }[] = [];
  text.split('|').forEach((words, step) => {
    for (const word of words.split(/\s+/).filter((each) => each !== '')) {
      const found = /^([a-z]+)(\d*)(?:[=/](-?[\d.]+))?(?:@(\d+))?$/.exec(word);
      if (found === null) throw new Error(`not an event: ${word}`);
      const [, kind = '', first, second, channel = '0'] = found;
      const tick = step * 100;
      const value = second === undefined ? null : Number(second);
      if (kind === 'bpm') tempos.push({ tick, bpm: value ?? 120 });
      else {
        const message = messageOf(kind, Number(first), value);
        events.push({ tick, seconds: step / 10, channel: Number(channel), ...message });
      }
    }
  });
  return { events, tempos };
}

function messageOf(
  kind: string,
  first: number,
  second: number | null,
): Pick<SfzEvent, 'kind' | 'data1' | 'data2'> {
  if (kind === 'on') return { kind: 'note-on', data1: first, data2: second ?? 100 };
  if (kind === 'off') return { kind: 'note-off', data1: first, data2: second ?? 64 };
  if (kind === 'cc') return { kind: 'controller', data1: first, data2: second ?? 0 };
  if (kind === 'pat') return { kind: 'poly-pressure', data1: first, data2: second ?? 0 };
  if (kind === 'at') return { kind: 'pressure', data1: second ?? 0, data2: 0 };
  if (kind === 'pc') return { kind: 'program', data1: first, data2: 0 };
  if (kind !== 'bend') throw new Error(`not a message: ${kind}`);
  const bend = (second ?? 0) + 8192;
  return { kind: 'bend', data1: bend % 128, data2: Math.floor(bend / 128) };
}

/** `plain`, `engine`, `order+tail`, several joined by ` | ` in alphabetical order; `-` is never. */
export function inWords(sets: readonly SfzDoubts[]): string {
  const words = sets.map((set) => (set.length === 0 ? 'plain' : set.join('+')));
  return words.length === 0 ? '-' : words.sort().join(' | ');
}
