import type { Instrument } from '../instruments/instrument.ts';
import type { Start } from '../instruments/program.ts';
import type { Grain } from '../template/player.ts';

/**
 * The units in which a player lets go (design, section 7): what of an instrument stays or goes as a
 * whole.
 */
export interface Units {
  /** Per start, its unit; -1 where every zone goes by itself. */
  readonly ofStart: readonly number[];
  /** Zones of each unit. */
  readonly zones: readonly (readonly number[])[];
}

const known = new WeakMap<Instrument, Map<Grain, Units>>();

/** The units of an instrument at a grain; made once. */
export const unitsOf = (instrument: Instrument, grain: Grain): Units => {
  let byGrain = known.get(instrument);
  if (byGrain === undefined) known.set(instrument, (byGrain = new Map<Grain, Units>()));
  let found = byGrain.get(grain);
  if (found === undefined) byGrain.set(grain, (found = find(instrument, grain)));
  return found;
};

const find = (instrument: Instrument, grain: Grain): Units => {
  const { program, zones } = instrument;
  if (grain === 'sample') return { ofStart: program.starts.map(() => -1), zones: [] };
  const numbers = new Map<string, number>();
  const members: Set<number>[] = [];
  const unit = (name: string): number => {
    let number = numbers.get(name);
    if (number === undefined) {
      numbers.set(name, (number = members.length));
      members.push(new Set());
    }
    return number;
  };
  const ofStart = program.starts.map((start) => {
    const number = unit(nameOf(instrument, start, grain));
    members[number]!.add(start.zone);
    return number;
  });
  // Zones that nothing starts are part of the whole, or of their microphone, all the same.
  if (grain === 'instrument' || grain === 'microphone') {
    zones.forEach(({ microphone }, zone) => {
      const number = numbers.get(grain === 'instrument' ? '' : (microphone ?? ''));
      if (number !== undefined) members[number]!.add(zone);
    });
  }
  return { ofStart, zones: members.map((set) => [...set]) };
};

const nameOf = ({ zones }: Instrument, start: Start, grain: Exclude<Grain, 'sample'>): string => {
  switch (grain) {
    case 'layer': {
      const { articulation, velocities, fades } = start;
      return JSON.stringify([articulation, velocities, fades]);
    }
    case 'articulation':
      return String(start.articulation);
    case 'microphone':
      return zones[start.zone]!.microphone ?? '';
    case 'instrument':
      return '';
  }
};
