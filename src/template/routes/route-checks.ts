import { capturesOf } from '../patterns/compile-pattern.ts';
import { mentionedCaptures } from '../patterns/fill-captures.ts';
import type { Pattern } from '../patterns/pattern.ts';
import type { Refuse, RouteFields, RouteProblem } from './route-fields.ts';
import { lengthProblem } from '../patterns/scan-pattern.ts';

/** Ports are a data byte (FF 21), channels four bits (MIDI 1.0); both count from 1 here. */
const ranges = { port: [1, 128], channel: [1, 16], transpose: [-127, 127] } as const;
const controllerRange = [0, 127] as const;
/** Louder than this is a slip: velocity 13 is at the top already. */
const loudest = 10;

const isWhole = (value: number, [lo, hi]: readonly [number, number]): boolean =>
  Number.isInteger(value) && value >= lo && value <= hi;

/** A number that can't be. */
export const wrongNumber = (fields: RouteFields, refuse: Refuse): RouteProblem | null => {
  for (const field of ['port', 'channel', 'transpose'] as const) {
    const value = fields[field];
    const [lo, hi] = ranges[field];
    if (value !== null && !isWhole(value, ranges[field])) {
      return refuse(field, 'route-number', { field, value, lo, hi });
    }
  }
  const { velocity } = fields;
  if (!(velocity > 0 && velocity <= loudest)) {
    return refuse('velocity', 'route-number', {
      field: 'velocity',
      value: velocity,
      lo: 0,
      hi: loudest,
    });
  }
  const wrong = [...fields.controllers].flat().find((number) => !isWhole(number, controllerRange));
  if (wrong === undefined) return null;
  const [lo, hi] = controllerRange;
  return refuse('controllers', 'route-number', { field: 'controllers', value: wrong, lo, hi });
};

/** What only makes sense when something is played. */
const besideIgnore = (fields: RouteFields): keyof RouteFields | null => {
  if (fields.instruments.length > 0) return 'instruments';
  if (fields.articulation !== null) return 'articulation';
  if (fields.joinWord !== null) return 'joinWord';
  if (fields.transpose !== 0) return 'transpose';
  if (fields.velocity !== 1) return 'velocity';
  if (fields.controllers.size > 0) return 'controllers';
  return fields.printed ? 'printed' : null;
};

/** A rule that says nothing, or two things. */
export const wrongOutcome = (
  fields: RouteFields,
  rule: string,
  refuse: Refuse,
): RouteProblem | null => {
  if (fields.ignore) {
    const field = besideIgnore(fields);
    return field === null ? null : refuse(field, 'route-ignore-and', { rule, field });
  }
  const { instruments } = fields;
  if (instruments.length === 0) return refuse(null, 'route-without-outcome', { rule });
  const twice = instruments.find((id, i) => instruments.indexOf(id) < i);
  return twice === undefined
    ? null
    : refuse('instruments', 'route-instrument-twice', { rule, instrument: twice });
};

/** A text that mentions what a pattern of the rule does not capture. */
export const wrongCaptures = (
  field: 'articulation' | 'joinWord',
  text: string | null,
  patterns: readonly Pattern[],
  refuse: Refuse,
): RouteProblem | null => {
  if (text === null) return null;
  const mentioned = lengthProblem(text) ?? mentionedCaptures(text);
  if ('problem' in mentioned) {
    return refuse(field, 'route-pattern', { field, pattern: text, ...mentioned });
  }
  for (const capture of mentioned) {
    const without = patterns.find((pattern) => !capturesOf(pattern).includes(capture));
    if (without !== undefined) {
      return refuse(field, 'route-capture', { field, capture, pattern: without.text });
    }
  }
  return null;
};

/** The captures of a pattern as one text: equal for patterns that capture the same. */
export const capturesKey = (pattern: Pattern): string =>
  JSON.stringify(capturesOf(pattern).toSorted());

/** Patterns to be joined that capture different things: their tracks would never meet. */
export const wrongJoin = (patterns: readonly Pattern[], refuse: Refuse): RouteProblem | null => {
  const [first] = patterns;
  if (first === undefined || patterns.length < 2) {
    return refuse('join', 'route-join-one', { pattern: first?.text ?? '' });
  }
  const other = patterns.find((pattern) => capturesKey(pattern) !== capturesKey(first));
  return other === undefined
    ? null
    : refuse('join', 'route-join-captures', { first: first.text, second: other.text });
};
