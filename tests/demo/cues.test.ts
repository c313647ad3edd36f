/** The demo's cues, read by two independent readers: `midi-file` and `jzz-midi-smf`. */
import { createRequire } from 'node:module';
import { parseMidi, type MidiEvent } from 'midi-file';
import { describe, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';

const cues = demoFiles().filter(({ path }) => path.endsWith('.mid'));
const cue = (start: string): Uint8Array =>
  cues.find(({ path }) => path.startsWith(`cues/${start}`))!.bytes;

/** Events with their ticks, track by track; note-on with velocity 0 is read as a note-off. */
const timed = (bytes: Uint8Array): readonly (readonly (MidiEvent & { tick: number })[])[] =>
  parseMidi(bytes).tracks.map((track) => {
    let tick = 0;
    return track.map((event) => ({ ...event, tick: (tick += event.deltaTime) }));
  });

interface JzzMessage extends ArrayLike<number> {
  readonly tt: number;
  readonly ff?: number;
}
interface JzzFile extends ArrayLike<ArrayLike<JzzMessage>> {
  readonly type: number;
  readonly ppqn: number;
  validate(): readonly unknown[] | undefined;
}
const require = createRequire(import.meta.url);
const JZZ = require('jzz') as { MIDI: { SMF: new (bytes: Uint8Array) => JzzFile } };
(require('jzz-midi-smf') as (jzz: unknown) => void)(JZZ);

describe.each(cues)('$path', ({ path, bytes }) => {
  const tracks = timed(bytes);

  test('is format 1 at 480 ticks a quarter, its title in track 0', () => {
    const { header } = parseMidi(bytes);
    expect(header).toMatchObject({ format: 1, ticksPerBeat: 480, numTracks: tracks.length });
    expect(tracks[0]![0]).toMatchObject({
      type: 'trackName',
      text: path.replace(/^.*\/|\.mid$/g, ''),
    });
  });

  test('tempo, meter and markers stand in track 0 only, notes elsewhere', () => {
    const conductor = new Set(tracks[0]!.map(({ type }) => type));
    for (const type of ['setTempo', 'timeSignature', 'keySignature', 'marker', 'smpteOffset']) {
      expect(conductor).toContain(type);
      expect(tracks.slice(1).some((track) => track.some((event) => event.type === type))).toBe(
        false,
      );
    }
    expect(conductor).not.toContain('noteOn');
    expect(tracks[0]!.find(({ type }) => type === 'setTempo')!.tick).toBe(0);
    expect(tracks[0]!.find(({ type }) => type === 'timeSignature')!.tick).toBe(0);
  });

  test('each track has a name, port 0, one channel of its own, and ends with the others', () => {
    const channels = tracks.slice(1).map((track) => {
      expect(track[0]).toMatchObject({ type: 'trackName', tick: 0 });
      expect(track[1]).toMatchObject({ type: 'portPrefix', port: 0, tick: 0 });
      return new Set(track.flatMap((event) => ('channel' in event ? [event.channel] : [])));
    });
    const sounding = channels.flatMap((own) => [...own]);
    expect(channels.every((own) => own.size <= 1)).toBe(true);
    expect(new Set(sounding).size).toBe(sounding.length);
    const ends = tracks.map((track) => track.at(-1)!);
    expect(new Set(ends.map(({ type }) => type))).toEqual(new Set(['endOfTrack']));
    expect(new Set(ends.map(({ tick }) => tick)).size).toBe(1);
  });

  test('notes are paired, of many velocities, and over before the end', () => {
    const velocities = new Set<number>();
    for (const track of tracks) {
      const held = new Set<number>();
      for (const event of track) {
        if (event.type === 'noteOn') {
          expect(held.has(event.noteNumber)).toBe(false);
          held.add(event.noteNumber);
          velocities.add(event.velocity);
        } else if (event.type === 'noteOff') {
          expect(held.delete(event.noteNumber)).toBe(true);
        }
      }
      expect(held.size).toBe(0);
    }
    expect(velocities.size).toBeGreaterThan(15);
  });

  test('a second reader sees the same channel messages at the same ticks, and no fault', () => {
    const smf = new JZZ.MIDI.SMF(bytes);
    expect([smf.type, smf.ppqn, smf.length]).toEqual([1, 480, tracks.length]);
    expect(smf.validate()).toBeUndefined();
    tracks.forEach((track, index) => {
      const theirs = Array.from(smf[index]!)
        .filter((message) => message.ff === undefined && message[0]! < 0xf0)
        .map((message) => [message.tt, ...Array.from(message)]);
      expect(theirs).toEqual(
        track.flatMap((event) => {
          const data = channelBytes(event);
          return data === null ? [] : [[event.tick, ...data]];
        }),
      );
    });
  });
});

/** The bytes of a channel message, or null for anything else. */
const channelBytes = (event: MidiEvent): readonly number[] | null => {
  switch (event.type) {
    case 'noteOn':
      return [0x90 | event.channel, event.noteNumber, event.velocity];
    case 'noteOff':
      return [
        (event.byte9 === true ? 0x90 : 0x80) | event.channel,
        event.noteNumber,
        event.velocity,
      ];
    case 'controller':
      return [0xb0 | event.channel, event.controllerType, event.value];
    case 'programChange':
      return [0xc0 | event.channel, event.programNumber];
    default:
      return null;
  }
};

test('the second reader does find faults: it complains about a cue that is cut', () => {
  const whole = cue('1m3');
  expect(new JZZ.MIDI.SMF(whole.subarray(0, whole.length - 9)).validate()).not.toBeUndefined();
});

test('1m2 goes from 4/4 to 3/4 to 6/8 and slows down at the end', () => {
  const conductor = timed(cue('1m2 Harbour v3'))[0]!;
  expect(
    conductor.flatMap((event) =>
      event.type === 'timeSignature' ? [`${event.numerator}/${event.denominator}`] : [],
    ),
  ).toEqual(['4/4', '3/4', '6/8']);
  const tempos = conductor.flatMap((event) =>
    event.type === 'setTempo' ? [event.microsecondsPerBeat] : [],
  );
  // 84 a minute in quarters, 62 and 40 in dotted quarters: 60e6 / 84, 60e6 / 62 / 1.5, 60e6 / 40 / 1.5
  expect(tempos[0]).toBe(714_286);
  expect(tempos[2]).toBe(645_161);
  expect(tempos.at(-1)).toBe(1_000_000);
  const slowing = tempos.slice(2);
  expect(slowing.length).toBeGreaterThan(6);
  expect(slowing).toEqual([...slowing].sort((a, b) => a - b));
});

const trackOf = (start: string, name: string): readonly (MidiEvent & { tick: number })[] =>
  timed(cue(start)).find((track) => track[0]!.type === 'trackName' && track[0]!.text === name)!;

test('1m1 opens with GM System On (7E 7F 09 01); programs come after it', () => {
  const tracks = timed(cue('1m1'));
  const system = tracks[0]!.find((event) => event.type === 'sysEx')!;
  expect([system.tick, Array.from(system.data)]).toEqual([0, [0x7e, 0x7f, 0x09, 0x01, 0xf7]]);
  const programs = tracks.flatMap((track) => track.filter(({ type }) => type === 'programChange'));
  expect(programs.length).toBeGreaterThan(8);
  for (const { tick } of programs) expect(tick).toBeGreaterThan(0);
});

test('1m3 has one note before its program change', () => {
  const kinds = trackOf('1m3', 'Str pizz').flatMap(({ type }) =>
    type === 'noteOn' || type === 'programChange' ? [type] : [],
  );
  expect(kinds.slice(0, 3)).toEqual(['noteOn', 'programChange', 'noteOn']);
});

test('1m4 has notes and a program change on one tick, the notes first', () => {
  const track = trackOf('1m4', 'Str hi leg');
  const change = track.findLastIndex(({ type }) => type === 'programChange');
  expect(track[change]).toMatchObject({ programNumber: 44 });
  expect(track[change - 1]).toMatchObject({ type: 'noteOn', tick: track[change]!.tick });
});

test('1m4 opens the piano with bank, program and first note on one tick', () => {
  const track = trackOf('1m4', 'Pno');
  const first = track.find(({ type }) => type === 'noteOn')!;
  const before = track.slice(0, track.indexOf(first)).filter((event) => event.tick === first.tick);
  expect(before.slice(0, 3)).toMatchObject([
    { type: 'controller', controllerType: 0 },
    { type: 'controller', controllerType: 32 },
    { type: 'programChange', programNumber: 0 },
  ]);
});

test('2m1 asks for bank 1 for strings, which is there, and for horns, which is not', () => {
  const asked = (name: string): readonly unknown[] =>
    trackOf('2m1', name).flatMap((event) =>
      event.type === 'controller' && event.controllerType === 0
        ? [event.value]
        : event.type === 'programChange'
          ? [event.programNumber]
          : [],
    );
  expect([asked('Str sord'), asked('Hn a4 sus')]).toEqual([
    [1, 48],
    [1, 60],
  ]);
});

test('2m2 plays overlapping notes while the legato pedal is down', () => {
  const track = trackOf('2m2', 'Fl 1');
  let [down, held, overlaps] = [false, 0, 0];
  for (const event of track) {
    if (event.type === 'controller' && event.controllerType === 68) down = event.value >= 64;
    if (event.type === 'noteOff') held--;
    if (event.type === 'noteOn' && down && held++ > 0) overlaps++;
    else if (event.type === 'noteOn' && !down) held++;
  }
  expect(overlaps).toBeGreaterThan(10);
  expect(down).toBe(false);
});

test('2m2 plays the second kit, and 2m3 leaves the sustain pedal down', () => {
  expect(
    trackOf('2m2', utf8AsRead('Perc – Kit')).find(({ type }) => type === 'programChange'),
  ).toMatchObject({ channel: 9, programNumber: 8 });
  const pedal = trackOf('2m3', 'Pno').findLast(
    (event) => event.type === 'controller' && event.controllerType === 64,
  );
  expect(pedal).toMatchObject({ value: 127 });
});

/** `midi-file` reads text one character per byte; the demo writes UTF-8. */
const utf8AsRead = (text: string): string => Buffer.from(text).toString('latin1');

test('modulation is dense: half of the changes of a melody come within 20 ms', () => {
  const ticks = trackOf('1m2 Harbour v4', 'Fl 1').flatMap((event) =>
    event.type === 'controller' && event.controllerType === 1 ? [event.tick] : [],
  );
  const gaps = ticks.slice(1).map((tick, index) => tick - ticks[index]!);
  const median = gaps.sort((a, b) => a - b)[gaps.length >> 1]!;
  // The slowest quarter of the flute's bars lasts 1 s: 10 ticks of 480 are 21 ms there, 12 ms before.
  expect(median).toBe(10);
  expect(gaps.length).toBeGreaterThan(500);
});

test('versions 3 and 4 of a cue differ by what 4 adds, and by its title', () => {
  const notes = (start: string): readonly string[] =>
    timed(cue(start)).flatMap((track, index) =>
      track.flatMap((event) =>
        event.type === 'noteOn'
          ? [`${index} ${event.tick} ${event.noteNumber} ${event.velocity}`]
          : [],
      ),
    );
  const [third, fourth] = [notes('1m2 Harbour v3'), notes('1m2 Harbour v4')];
  expect(third.filter((note) => !fourth.includes(note))).toEqual([]);
  expect(fourth.filter((note) => !third.includes(note))).toHaveLength(5);
});

describe('2m4 Slack Water', () => {
  /** Keys of the fiddle's switches: far below its lowest string, G3 (55). */
  const isSwitch = (key: number): boolean => key < 28;
  const fiddle = trackOf('2m4', 'Fiddle');
  const notes = fiddle.flatMap((event) => (event.type === 'noteOn' ? [event] : []));

  test('the fiddle plays before its first switch, and its switches lie below its strings', () => {
    expect(notes.findIndex(({ noteNumber }) => isSwitch(noteNumber))).toBe(1);
    expect(notes.flatMap(({ noteNumber }) => (isSwitch(noteNumber) ? [noteNumber] : []))).toEqual([
      24, 25, 26,
    ]);
    const played = notes.filter(({ noteNumber }) => !isSwitch(noteNumber));
    expect(Math.min(...played.map(({ noteNumber }) => noteNumber))).toBeGreaterThanOrEqual(55);
  });

  test('one switch stands before the note of its tick, one behind it, one alone', () => {
    const places = notes.flatMap(({ tick, noteNumber }, index) => {
      if (!isSwitch(noteNumber)) return [];
      if (notes[index + 1]?.tick === tick) return ['before'];
      return notes[index - 1]?.tick === tick ? ['behind'] : ['alone'];
    });
    expect(places).toEqual(['before', 'behind', 'alone']);
  });

  test("the horns' switches are a track of programs only, one of them on the tick of a note", () => {
    const switches = trackOf('2m4', 'Hn switches');
    const programs = switches.flatMap((event) => (event.type === 'programChange' ? [event] : []));
    expect(switches.some(({ type }) => type === 'noteOn')).toBe(false);
    expect(programs.map(({ programNumber }) => programNumber)).toEqual([61, 62, 60]);
    const horns = trackOf('2m4', 'Hn a4 sus').flatMap(({ type, tick }) =>
      type === 'noteOn' ? [tick] : [],
    );
    expect(programs.map(({ tick }) => horns.includes(tick))).toEqual([false, true, false]);
  });

  test('the alto flute sends one program, before its notes', () => {
    const kinds = trackOf('2m4', 'Alto fl').flatMap(({ type }) =>
      type === 'noteOn' || type === 'programChange' ? [type] : [],
    );
    expect([kinds.indexOf('programChange'), kinds.lastIndexOf('programChange')]).toEqual([0, 0]);
  });
});
