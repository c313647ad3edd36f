import type { Program } from '../../instruments/program.ts';
import { controllers, powerOnValue } from '../../terms/controllers.ts';
import { sending, type CueMessage, type ExcerptPart } from './excerpt-part.ts';

/** The channel of drums (General MIDI 1, "Channel 10"), from 0: its bank stands without a message. */
const drumChannel = 9;

/**
 * Messages that put all that a program looks at to where it stands before any message.
 *
 * @param isTold whether a cue has set it, by `cc NUMBER`, `program`, `pressure` or `bend`
 */
export const standing = (
  program: Program,
  parts: readonly ExcerptPart[],
  isTold: (status: number, what: string) => boolean,
): readonly CueMessage[] => {
  const carriers = program.scope === 'channel' ? eachChannel(parts) : parts.slice(0, 1);
  const values = valuesOf(program);
  const kinds = new Set(program.signals.map(({ kind }) => kind));
  return carriers.flatMap((from): readonly CueMessage[] => {
    const { channel } = from.part;
    const send = (kind: number, what: string, data1: number, data2: number) =>
      isTold((kind << 4) | channel, what)
        ? []
        : [{ tick: 0, from, status: (kind << 4) | channel, data1, data2, event: -1 }];
    const control = (number: number, value: number) => {
      const sent = sending(from.transform, number);
      return sent === null ? [] : send(0xb, `cc ${String(number)}`, sent, value);
    };
    const isPatch = kinds.has('patch');
    const hasProgram = isTold(0xc0 | channel, 'program');
    const banks =
      !isPatch || hasProgram || channel === drumChannel
        ? []
        : [...control(controllers.bankSelectMsb, 0), ...control(controllers.bankSelectLsb, 0)];
    return [
      ...banks,
      ...(isPatch || kinds.has('program') ? send(0xc, 'program', 0, 0) : []),
      ...[...values].flatMap(([number, value]) => control(number, value)),
      ...(kinds.has('pressure') ? send(0xd, 'pressure', 0, 0) : []),
      ...(kinds.has('bend') ? send(0xe, 'bend', 0, 64) : []),
    ];
  });
};

const eachChannel = (parts: readonly ExcerptPart[]): readonly ExcerptPart[] => {
  const found = new Map<number, ExcerptPart>();
  for (const one of parts) {
    if (!found.has(one.part.channel)) found.set(one.part.channel, one);
  }
  return [...found.values()];
};

/** Controllers that a program looks at, by number, with what they are before any message. */
const valuesOf = ({ signals, holds }: Program): ReadonlyMap<number, number> => {
  const values = new Map<number, number>();
  for (const { pedals } of holds) {
    for (const { sustain, sostenuto } of pedals) {
      if (sustain !== null) values.set(sustain.controller, sustain.initial);
      if (sostenuto !== null) values.set(sostenuto.controller, sostenuto.initial);
    }
  }
  for (const signal of signals) {
    if (signal.kind !== 'controller') continue;
    values.set(signal.number, signal.initial ?? powerOnValue(signal.number));
  }
  return values;
};
