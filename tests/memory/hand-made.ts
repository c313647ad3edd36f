import type { Articulation, Instrument, Sample } from '../../src/instruments/instrument.ts';
import { computed, type Calibration } from '../../src/memory/calibration.ts';
import type { LoadedCopies, LoadedInstrument } from '../../src/memory/loaded.ts';
import type { ZoneMask } from '../../src/memory/zone-mask.ts';
import { defaultPlayer, type Player } from '../../src/template/player.ts';
import type { Reading } from '../../src/instruments/reading.ts';
import { instrumentOf, start } from '../playback/hand-made.ts';

/** A 16-bit mono sample at 48 kHz. */
export const sampleOf = (name: string, frames: number, over: Partial<Sample> = {}): Sample => ({
  name,
  frames,
  channels: 1,
  width: 2,
  rate: 48_000,
  present: true,
  partner: null,
  ...over,
});

/** Zones by the samples they use; each zone is started by the articulation given for it. */
export const instrumentWith = (
  samples: readonly Sample[],
  zones: readonly (readonly number[])[],
  over: Partial<Instrument> = {},
  articulations: readonly { readonly name: string; readonly zones: readonly number[] }[] = [],
): Instrument => {
  const starts = articulations.flatMap(({ zones: own }, articulation) =>
    own.map((zone) => start(zone, { articulation })),
  );
  return instrumentOf(
    { signals: [], gates: [[]], starts },
    zones.map(() => 0),
    {
      samples,
      zones: zones.map((own, id) => ({
        id,
        samples: own,
        group: 0,
        key: null,
        microphone: null,
      })),
      articulations: articulations.map(({ name }): Articulation => ({
        name,
        switch: null,
        layers: [],
      })),
      ...over,
    },
  );
};

/** A mask from a picture: `#` a loaded zone, `.` one that is not. */
export const mask = (picture: string): ZoneMask =>
  Uint8Array.from(picture, (zone) => (zone === '#' ? 1 : 0));

export const playerOf = (over: Partial<Player>): Player => ({ ...defaultPlayer, ...over });

/** @param copies `'##. x2'`: two copies with the first two of three zones */
export const loadedOf = (
  instrument: Instrument,
  player: Player,
  copies: readonly string[],
  calibration: Calibration = computed,
): LoadedInstrument => ({
  instrument,
  player,
  calibration,
  copies: copies.map((text): LoadedCopies => {
    const [picture = '', times = 'x1'] = text.split(' ');
    return { zones: mask(picture), count: Number(times.slice(1)) };
  }),
});

export const reading = (of: string, bytes: number, line = 1): Reading => ({
  of,
  bytes,
  at: { line, column: 1 },
});
