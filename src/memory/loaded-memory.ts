import { fitOf } from './calibration.ts';
import { computedLoad, ownOnLine } from './computed-load.ts';
import { figureOf, wholeBytes, type Figure } from './figure.ts';
import type { LoadedCopies, LoadedInstrument } from './loaded.ts';
import { sameZones, type ZoneMask } from './zone-mask.ts';

/**
 * What a figure rests on: sizes of samples, readings of the player's display that were fitted, or the
 * display itself: every loaded copy is in a state that was read.
 */
export type Basis = 'computed' | 'fitted' | 'read';

/** Memory of an instrument and what the figure rests on. */
export interface InstrumentMemory extends Figure {
  readonly basis: Basis;
}

/**
 * What an instrument takes in its machine (design, section 7). The range is that of the calibration's
 * lines, wider by its residual for every copy that was not itself read. Nothing loaded: 0, computed.
 */
export const memoryOf = (loaded: LoadedInstrument): InstrumentMemory => {
  const { instrument, player, calibration } = loaded;
  const { lines, residual } = fitOf(calibration);
  const { read, unread } = partByReadings(loaded);
  const load = computedLoad(instrument, player, unread);
  const [likely, ...others] = lines;
  const total = (line: typeof likely): number => ownOnLine(line, load) + line.factor * load.samples;
  const bytes = read.reduce((sum, { count, shown }) => sum + count * shown, 0);
  return {
    ...figureOf(bytes, [total(likely), ...others.map(total)], residual * load.copies),
    basis: load.copies > 0 ? calibration.basis : read.length > 0 ? 'read' : 'computed',
  };
};

/**
 * Likely bytes of the zones of `part` that are loaded: the zones and their samples, without what a
 * copy takes by itself. A sample that other zones use too counts in full: it is what the part uses,
 * not what unloading it would free.
 */
export const partMemory = (loaded: LoadedInstrument, part: ZoneMask): number => {
  const { instrument, player, calibration } = loaded;
  const copies = loaded.copies.map(({ zones, count }) => ({
    zones: zones.map((one, z) => (part[z] === 1 ? one : 0)),
    count,
  }));
  const load = computedLoad(instrument, player, copies);
  const zonesAndSamples = load.own - player.perCopy * load.copies + load.samples;
  return wholeBytes(fitOf(calibration).lines[0].factor * zonesAndSamples);
};

/** Copies whose loaded zones are a state that was read, and what it showed for one of them. */
interface ReadCopies {
  readonly count: number;
  readonly shown: number;
}

/**
 * Copies in a state that was read, and the others that are loaded. A reading is of one copy, so it
 * says nothing of several that share their samples.
 */
const partByReadings = ({
  player,
  calibration,
  copies,
}: LoadedInstrument): { readonly read: ReadCopies[]; readonly unread: LoadedCopies[] } => {
  const { states } = fitOf(calibration);
  const loaded = copies.filter(({ zones }) => zones.includes(1));
  const number = loaded.reduce((sum, { count }) => sum + count, 0);
  if (player.shares === 'machine' && number > 1) return { read: [], unread: loaded };
  const read: ReadCopies[] = [];
  const unread = loaded.filter(({ zones, count }) => {
    const state = states.find((each) => sameZones(each.zones, zones));
    if (state !== undefined) read.push({ count, shown: state.bytes });
    return state === undefined;
  });
  return { read, unread };
};
