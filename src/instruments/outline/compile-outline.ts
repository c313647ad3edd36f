import { doubtSet, plain, type DoubtSet } from '../../terms/doubt.ts';
import { standardHold, type Program } from '../program.ts';
import type { Compiling } from './compiling.ts';
import { noteStarts } from './note-starts.ts';
import type { Outline } from './outline.ts';
import { OutlineGates } from './outline-gates.ts';
import type { OutlineZone, PlacedArticulation } from './outline-zone.ts';
import { returnStarts, transitionStarts } from './legato-starts.ts';
import { StartList } from './start-list.ts';

const noSwitch = doubtSet('no-switch');
const stretch = doubtSet('stretch');

/** The program of an outline (design, section 8), its zones as `zones`. */
export const compileOutline = (
  { articulations }: Outline,
  placed: readonly PlacedArticulation[],
  zones: readonly OutlineZone[],
): Program => {
  const gates = new OutlineGates(articulations);
  const starts = new StartList(zones, gates.signals);
  // The first gate is always open.
  gates.of([]);
  const all = placed.map(({ own }): Compiling => ({
    own,
    gates,
    starts,
    doubt: own.choice.kind === 'unknown' && articulations.length > 1 ? noSwitch : plain,
  }));
  zones.forEach((zone, number) => {
    const one = all[zone.articulation]!;
    switch (zone.role) {
      case 'note':
        noteStarts(one, zone, number);
        returnStarts(one, zone, number);
        break;
      case 'release':
        releaseStarts(one, zone, number);
        break;
      case 'legato':
        transitionStarts(one, zone, number);
        returnStarts(one, zone, number);
        break;
    }
  });
  starts.close();
  return {
    scope: 'copy',
    retriggers: true,
    signals: gates.signals.all,
    gates: gates.all,
    holds: [standardHold],
    starts: starts.all,
    zones: zones.length,
    articulations: articulations.length,
  };
};

/** When the key goes up, or the pedal too; both where it is not known. */
const releaseStarts = (
  { own, gates, starts, doubt }: Compiling,
  { keys }: OutlineZone,
  zone: number,
): void => {
  const event = own.releases?.event ?? null;
  const gate = gates.of(gates.choice(own));
  const add = (at: 'release' | 'note-off', more: DoubtSet): void => {
    const all = { zone, event: at, gate };
    starts.add({ ...all, keys: keys.plain, doubt: doubt | more });
    starts.add({ ...all, keys: keys.doubtful, doubt: doubt | stretch | more });
  };
  add(event ?? 'release', plain);
  if (event === null) add('note-off', stretch);
};
