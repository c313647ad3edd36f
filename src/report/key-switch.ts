import { keyLabel } from '../terms/key.ts';
import type { Look } from './look.ts';

/** A key as instruments write it: its name with key 60 as C4, and its number. */
const labelled = /^[A-G]#?-?\d+ \((\d{1,3})\)$/;

/** Whether a switch is a key, and no words from a file. */
export const isKeySwitch = (text: string): boolean => labelled.test(text);

/** A switch under the report's own name of key 60; what is no key stays as it is. */
export const keySwitch = (text: string, { middleC }: Look): string => {
  const number = labelled.exec(text)?.[1];
  return number === undefined ? text : keyLabel(Number(number), middleC);
};
