import { controllers, resetValue } from '../../terms/controllers.ts';
import type { Program } from '../../instruments/program.ts';
import { contains } from '../../terms/range.ts';
import { standing } from './standing.ts';
import { arriving, isStrike, type CueMessage, type ExcerptPart } from './excerpt-part.ts';

/** How things stand for a copy at a tick of a cue. */
export interface Chased {
  /** Messages that set it, in their order: bank and program, controllers, pressure and bend. */
  readonly settings: readonly CueMessage[];
  /** Latched key switches, each as the note-on that pressed it, the last one last. */
  readonly switches: readonly CueMessage[];
}

const { bankSelectMsb, bankSelectLsb, resetAllControllers, allSoundOff, omniOff } = controllers;

/** Data entry and the numbers it is for, which only mean something together and in their order. */
export const isRegistered = (number: number): boolean =>
  number === controllers.dataEntryMsb ||
  number === controllers.dataEntryLsb ||
  (number >= controllers.dataIncrement && number <= controllers.rpnMsb);

/** So many of these are sent again at most: a bend range takes five. */
const mostRegistered = 64;

/**
 * What a copy has been told before a tick, and for what nobody has told it the value that it has at
 * power-on: the notes of the primer have moved it.
 *
 * @param messages all of the copy's, in order
 */
export const chase = (
  messages: readonly CueMessage[],
  parts: readonly ExcerptPart[],
  program: Program,
  tick: number,
): Chased => {
  const states = new Map<string, CueMessage>();
  const banks = new Map<string, readonly CueMessage[]>();
  const registered: CueMessage[] = [];
  const switches = new Map<number, CueMessage>();
  const scopeOf = ({ status }: Pick<CueMessage, 'status'>): string =>
    program.scope === 'channel' ? String(status & 0xf) : '';
  const set = (message: CueMessage, what: string): void => {
    states.set(`${scopeOf(message)} ${what}`, message);
  };
  const reset = (message: CueMessage): void => {
    const scope = `${scopeOf(message)} `;
    for (const [key, old] of states) {
      if (!key.startsWith(scope)) continue;
      const kind = old.status >> 4;
      if (kind === 0xb) {
        const value = resetValue(arriving(old.from.transform, old.data1));
        if (value !== null) states.set(key, { ...old, data2: value });
      } else if (kind !== 0xc) states.delete(key);
    }
  };
  for (const message of messages) {
    if (message.tick >= tick) break;
    const { status, data1, from } = message;
    switch (status >> 4) {
      case 0x9: {
        if (!isStrike(message)) break;
        const key = data1 + from.transform.transpose;
        program.signals.forEach((signal, i) => {
          if (signal.kind !== 'switch' || !signal.keys.some((range) => contains(range, key)))
            return;
          // What was pressed last comes last.
          switches.delete(i);
          switches.set(i, message);
        });
        break;
      }
      case 0xa:
        set(message, `poly ${String(data1)}`);
        break;
      case 0xb: {
        const number = arriving(from.transform, data1);
        if (number === resetAllControllers) reset(message);
        else if (isRegistered(number)) registered.push(message);
        else if (number < allSoundOff || number >= omniOff) set(message, `cc ${String(number)}`);
        break;
      }
      case 0xc: {
        const scope = scopeOf(message);
        const latched = [bankSelectMsb, bankSelectLsb].flatMap(
          (number) => states.get(`${scope} cc ${String(number)}`) ?? [],
        );
        banks.set(scope, [...latched, message]);
        set(message, 'program');
        break;
      }
      case 0xd:
        set(message, 'pressure');
        break;
      case 0xe:
        set(message, 'bend');
        break;
      default:
    }
  }
  const told = [...states.values()].filter(({ status }) => status >> 4 !== 0xc);
  const untold = standing(program, parts, (status, what) =>
    states.has(`${scopeOf({ status })} ${what}`),
  );
  return {
    settings: [
      ...untold,
      // What a program change took on stands before it, what was said of banks later behind it.
      ...[...banks.values()].flat(),
      ...told,
      ...registered.slice(-mostRegistered),
    ],
    switches: [...new Set(switches.values())],
  };
};
