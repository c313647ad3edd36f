import { sourceKey, usageKey } from '../../playback/zone-usage.ts';
import { fault, within, type Fault } from './checks.ts';
import type { StoredUsage } from './stored.ts';

type StoredFile = StoredUsage['files'][string];
type StoredCopy = StoredFile['copies'][number];

/**
 * What points to something else in the file, points to something that is there. The shape of the file
 * must be sound.
 */
export const referenceFault = (usage: StoredUsage): Fault | null => {
  for (const [key, source] of Object.entries(usage.sources)) {
    if (key !== sourceKey(source)) return fault('reference', 'sources', key);
  }
  for (const [key, file] of Object.entries(usage.files)) {
    const isSound = key === usageKey(file) && Object.hasOwn(usage.sources, sourceKey(file));
    const found = isSound ? faultOf(file, usage) : fault('reference');
    if (found !== null) return within(within(found, key), 'files');
  }
  return null;
};

const faultOf = (file: StoredFile, { instruments }: StoredUsage): Fault | null => {
  const { tracks, timelines, tainted, copies } = file;
  const track = tracks.findIndex(({ timeline }) => timeline >= timelines.length);
  if (track >= 0) return fault('reference', 'tracks', track, 'timeline');
  const id = tainted.findIndex((one) => !Object.hasOwn(instruments, one));
  if (id >= 0) return fault('reference', 'tainted', id);
  for (const [i, copy] of copies.entries()) {
    const found = Object.hasOwn(instruments, copy.instrument)
      ? copyFault(copy, tracks.length)
      : fault('reference', 'instrument');
    if (found !== null) return within(within(found, i), 'copies');
  }
  return null;
};

const copyFault = (
  { alternatives, states, lives, classes }: StoredCopy,
  tracks: number,
): Fault | null => {
  for (const [i, state] of states.entries()) {
    const signal = state.findIndex((one) => one >= alternatives.length);
    if (signal >= 0) return fault('reference', 'states', i, signal);
  }
  for (const [i, { state, life, witnesses }] of classes.entries()) {
    if (state >= states.length) return fault('reference', 'classes', i, 'state');
    if (life >= lives.length) return fault('reference', 'classes', i, 'life');
    const place = witnesses.findIndex(([track]) => track >= tracks);
    if (place >= 0) return fault('reference', 'classes', i, 'witnesses', place);
  }
  return null;
};
