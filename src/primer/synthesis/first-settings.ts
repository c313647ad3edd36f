import type { Score } from '../../midi/score.ts';
import type { Lane } from '../lanes.ts';

/** What a cue sends on a lane first, as it is written. */
export interface LaneFirsts {
  readonly lane: Lane;
  /** The first message of each kind, by {@link settingKey}. */
  readonly settings: ReadonlyMap<string, FirstSetting>;
  /** By key, the tick at which it is struck first. */
  readonly struck: ReadonlyMap<number, number>;
}

/** Both data bytes of a message, and its tick. */
export interface FirstSetting {
  readonly tick: number;
  readonly data1: number;
  readonly data2: number;
}

/** By {@link laneKey}. */
export type FirstSettings = ReadonlyMap<string, LaneFirsts>;

export const laneKey = ({ track, port, channel }: Lane): string => [track, port, channel].join();

/** @param kind the upper four bits of a status @param number of the controller; 0 for other kinds */
export const settingKey = (kind: number, number: number): string => [kind, number].join();

const noteOn = 0x9;
const controlChange = 0xb;

/** What the tracks of a cue set first, lane by lane: that is how a session is found when it opens. */
export const firstSettings = ({ tracks }: Score): FirstSettings => {
  const found = new Map<
    string,
    { lane: Lane; settings: Map<string, FirstSetting>; struck: Map<number, number> }
  >();
  tracks.forEach(({ events, ports }, track) => {
    let run = 0;
    for (let i = 0; i < events.length; i++) {
      while (ports[run + 1] !== undefined && ports[run + 1]!.from <= i) run++;
      const kind = events.status[i]! >> 4;
      const [data1, data2] = [events.data1[i]!, events.data2[i]!];
      const tick = events.tick[i]!;
      const lane: Lane = { track, port: ports[run]?.port ?? 0, channel: events.status[i]! & 15 };
      const key = laneKey(lane);
      let own = found.get(key);
      if (own === undefined) {
        found.set(key, (own = { lane, settings: new Map(), struck: new Map() }));
      }
      if (kind === noteOn && data2 > 0 && !own.struck.has(data1)) own.struck.set(data1, tick);
      if (kind <= noteOn + 1 || kind > 0xe) continue;
      const setting = settingKey(kind, kind === controlChange ? data1 : 0);
      if (!own.settings.has(setting)) own.settings.set(setting, { tick, data1, data2 });
    }
  });
  return found;
};
