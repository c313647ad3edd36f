// @ts-check
// What the page holds, and how it is said.

/**
 * @typedef {readonly [lo: number, hi: number, state: number, zones: number, kept: number, reasons: number, witness: number, witnesses: number]} Cell
 * @typedef {{ velocity: readonly [number, number], event: string, cells: readonly Cell[] }} Row
 * @typedef {{ name: string, keysPlayed: readonly (readonly [number, number])[], rows: readonly Row[] }} Articulation
 * @typedef {{ id: string, articulations: readonly Articulation[], witnesses: readonly (readonly [number, number, number, number, number | null, number | null])[] }} Instrument
 * @typedef {{ middleC: number, keep: { path: string | null }, template: { path: string } | null, settings: { instrument: string | null }, instruments: readonly Instrument[], cues: readonly { id: string }[], tracks: readonly (string | null)[], reasons: readonly (readonly string[])[], witnessesPerCell: number }} Overview
 */

/** @param {string} id */
const byId = (id) => document.getElementById(id);
/** @template {Element} T @param {string} selector @param {ParentNode} [from] @returns {T[]} */
const all = (selector, from = document) =>
  /** @type {T[]} */ ([...from.querySelectorAll(selector)]);

const dataElement = byId('data');
const dataText = dataElement?.textContent ?? '';
/** @type {Overview | null} */
let parsed = null;
/** Parsed when it is asked for: it may be large. @returns {Overview} */
const data = () => (parsed ??= JSON.parse(dataText));

/** Characters that act on a text instead of standing in it are written out. @param {string} text */
const printable = (text) =>
  text.replace(
    /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu,
    (found) => `\\u{${(found.codePointAt(0) ?? 0).toString(16)}}`,
  );

const pitches = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'];
/** @param {number} key */
const keyLabel = (key) =>
  `${pitches[key % 12]}${Math.floor(key / 12) - 5 + data().middleC} (${key})`;
/** @param {number} lo @param {number} hi */
const keysLabel = (lo, hi) => {
  if (lo === hi) return keyLabel(lo);
  const [from, to] = [keyLabel(lo), keyLabel(hi)].map((label) => label.split(' ')[0]);
  return `${from}-${to} (${lo}-${hi})`;
};
/** A word as it can be typed into a command. @param {string} name */
const shellWord = (name) => {
  const text = printable(name);
  if (/^[\p{L}\p{N}._/][\p{L}\p{N}._/-]*$/u.test(text)) return text;
  return `'${text.replaceAll("'", "'\\''")}'`;
};
