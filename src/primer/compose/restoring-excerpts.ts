import type { Score } from '../../midi/score.ts';
import type { LaneMessage, Synthesis } from '../lanes.ts';
import { laneKey, settingKey } from '../synthesis/first-settings.ts';
import { restoring, type ToRestore } from '../synthesis/restoring.ts';
import type { Excerpt } from './excerpt.ts';

/** From what is put back for the notes to what is put back for excerpts, in seconds. */
const apart = 0.12;

/**
 * Messages that put back what excerpts have moved. What is put back for the notes of the primer is left
 * out: once is enough.
 */
export const restoringExcerpts = (
  syntheses: readonly Synthesis[],
  excerpts: readonly Excerpt[],
  base: Score,
): readonly LaneMessage[] => {
  const copies = new Map<string, ToRestore['copies'][number]>();
  const all = [
    ...syntheses.flatMap(({ group }) => group.copies),
    ...excerpts.flatMap((excerpt) => excerpt.copies),
  ];
  for (const one of all) {
    const name = JSON.stringify([one.instrument.id, one.copy.name]);
    if (!copies.has(name)) copies.set(name, one);
  }
  const moved = excerpts.flatMap(({ events }) =>
    events.messages.flatMap(({ track, port, message }): readonly LaneMessage[] =>
      'status' in message
        ? [{ ...message, lane: { track, port, channel: message.status & 15 }, seconds: 0 }]
        : [],
    ),
  );
  const before = syntheses.flatMap(({ restore }) => restore);
  const done = new Set(before.map(nameOf));
  const last = before.reduce((latest, { seconds }) => Math.max(latest, seconds + apart), 0);
  return restoring({ copies: [...copies.values()], base }, moved)
    .filter((message) => !done.has(nameOf(message)))
    .map((message) => ({ ...message, seconds: message.seconds + last }));
};

/** What is set, on which lane. */
const nameOf = ({ lane, status, data1 }: LaneMessage): string => {
  const kind = status >> 4;
  const number = kind === 0xc || kind === 0xd || kind === 0xe ? 0 : data1;
  return `${laneKey(lane)} ${settingKey(kind, number)}`;
};
