import type { Program } from '../instruments/program.ts';
import type { Stretches } from '../midi/stretches.ts';
import type { Range } from '../terms/range.ts';
import { shapingControllers, type ControllerRange } from './controller-ranges.ts';
import type { CopyStream } from './copy-stream.ts';

/**
 * How far the shaping controllers go in each of the cues that a stream holds: what is sent there, and
 * what was in force when a stretch began, unless its first tick sets it anew.
 *
 * @param cues what of the file each is
 */
export const carriedRanges = (
  program: Program,
  stream: CopyStream,
  cues: readonly Stretches[],
): readonly (readonly ControllerRange[])[] => {
  const shaping = new Set(shapingControllers(program));
  const ranges = cues.map(() => new Map<number, Range>());
  if (shaping.size === 0) return ranges.map(() => []);
  const { length, tick, status, data1, data2 } = stream;
  const widen = (cue: number, number: number, value: number): void => {
    const [lo, hi] = ranges[cue]!.get(number) ?? [value, value];
    ranges[cue]!.set(number, [Math.min(lo, value), Math.max(hi, value)]);
  };
  const stretches = cues
    .flatMap((own, cue) => (own ?? []).map((stretch) => ({ ...stretch, cue })))
    .sort((a, b) => a.from - b.from);
  /** In force, by channel and number. */
  const last = new Map<number, number>();
  let at = 0;
  for (const { from, to, cue } of stretches) {
    for (; at < length && tick[at]! < from; at++) take();
    const carried = new Map(last);
    for (; at < length && tick[at]! < (to ?? Infinity); at++) {
      if (!take()) continue;
      if (tick[at] === from) carried.delete(keyAt());
      widen(cue, data1[at]!, data2[at]!);
    }
    for (const [key, value] of carried) widen(cue, key % 128, value);
  }
  return ranges.map((own) =>
    [...own].map(([number, range]) => ({ number, range })).sort((a, b) => a.number - b.number),
  );

  function keyAt(): number {
    return (status[at]! & 0x0f) * 128 + data1[at]!;
  }

  /** False for what is no shaping controller. */
  function take(): boolean {
    if (status[at]! >> 4 !== 0xb || !shaping.has(data1[at]!)) return false;
    last.set(keyAt(), data2[at]!);
    return true;
  }
};
