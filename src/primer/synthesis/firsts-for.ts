import type { Program } from '../../instruments/program.ts';
import type { RoutedCopy } from '../../template/routed.ts';
import type { Lane } from '../lanes.ts';
import {
  laneKey,
  settingKey,
  type FirstSetting,
  type FirstSettings,
  type LaneFirsts,
} from './first-settings.ts';
import { hearing } from './performer.ts';
import { wireController, wireKey } from './wire.ts';

/**
 * What a cue sets first for a copy, over all tracks that drive it, as it would be written on one lane:
 * key switches often stand on a track of their own.
 *
 * @param lane one that the copy hears
 */
export const firstsFor = (
  { sources }: Pick<RoutedCopy, 'sources'>,
  { scope }: Pick<Program, 'scope'>,
  lane: Lane,
  firsts: FirstSettings,
): Pick<LaneFirsts, 'settings' | 'struck'> => {
  const own = hearing(sources, lane);
  const settings = new Map<string, FirstSetting>(firsts.get(laneKey(lane))?.settings);
  const struck = new Map<number, number>(firsts.get(laneKey(lane))?.struck);
  if (own === null) return { settings, struck };
  const isEarlier = (tick: number, known: number | undefined): boolean =>
    known === undefined || tick < known;
  for (const other of firsts.values()) {
    const source = hearing(sources, other.lane);
    if (source === null || (scope === 'channel' && other.lane.channel !== lane.channel)) continue;
    for (const [written, tick] of other.struck) {
      const key = wireKey(own.transform, written + source.transform.transpose);
      if (key !== null && isEarlier(tick, struck.get(key))) struck.set(key, tick);
    }
    for (const [name, setting] of other.settings) {
      const kind = Number(name.split(',')[0]);
      const { controllers } = source.transform;
      const number =
        kind === 0xb
          ? wireController(own.transform, controllers.get(setting.data1) ?? setting.data1)
          : 0;
      if (number === null) continue;
      const key = settingKey(kind, number);
      if (!isEarlier(setting.tick, settings.get(key)?.tick)) continue;
      settings.set(key, kind === 0xb ? { ...setting, data1: number } : setting);
    }
  }
  return { settings, struck };
};
