import { isMap, isScalar, isSeq, parseDocument, type Document, type ParsedNode } from 'yaml';
import { lineEndOf } from '../draft/insertion.ts';
import { quoted } from '../draft/yaml-text.ts';
import type { PlanSettings } from '../keep/plan.ts';
import type { Template } from '../template/template.ts';
import { leftOutNotes } from './left-out-notes.ts';
import { singleText } from './single-template-text.ts';
import type { TemplateChanges } from './template-changes.ts';

/**
 * The template for the smaller instruments: the text it was made from with other paths in it. What was
 * said on the command line of the plan is written down. All else stays as it is; where keys come or go,
 * blanks may move.
 *
 * @param text null where there was no template: one instrument played all
 */
export const trimmedTemplate = (
  text: string | null,
  template: Template,
  changes: TemplateChanges,
): string => {
  if (text === null) return singleText(template, changes);
  const moved = withPaths(text, changes);
  const end = lineEndOf(text);
  return [
    '# Made by keepset trim: smaller instruments, with what the cues need and no more.',
    '# Keep the full ones, and the template they belong to: keepset check holds revised cues against',
    '# those. A plan with this template can not tell what is missing here.',
    ...leftOutNotes(changes),
    withKeys(moved, template, changes),
  ].join(end);
};

interface Splice {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** Paths alone are put in place of others; every other letter stays. */
const withPaths = (text: string, { cues, smaller, moved }: TemplateChanges): string => {
  const { contents } = parse(text);
  if (!isMap(contents)) throw new Error('a template that was read holds no keys');
  const splices: Splice[] = [];
  const putText = (node: ParsedNode, put: string): void => {
    const [from, to] = node.range;
    // What the library counts to text or a list on lines of its own goes on to the next key.
    const rest = /\s*$/u.exec(text.slice(from, to))?.[0] ?? '';
    splices.push({ from, to: to - rest.length, text: put });
  };
  const put = (node: unknown, value: (before: string) => string): void => {
    if (isScalar(node) && node.range) {
      putText(node as ParsedNode, quoted(value(String(node.value))));
    }
  };
  const written = contents.get('cues', true);
  if (isScalar(written) || isSeq(written)) putText(written as ParsedNode, list(cues));
  const tracks = contents.get('tracks', true);
  put(isMap(tracks) ? tracks.get('file', true) : tracks, moved);
  const instruments = contents.get('instruments', true);
  if (isMap(instruments)) {
    for (const { key, value } of instruments.items) {
      if (!isMap(value)) continue;
      const own = smaller.get(idOf(key));
      put(value.get('file', true), (before) => own ?? moved(before));
      for (const kind of ['zones', 'outline']) put(value.get(kind, true), moved);
    }
  }
  const routes = contents.get('routes', true);
  for (const rule of isSeq(routes) ? routes.items : []) {
    // A cue without a number is called by its path; a number has no slash.
    const cue = isMap(rule) ? rule.get('cue', true) : undefined;
    if (isScalar(cue) && String(cue.value).includes('/')) put(cue, moved);
  }
  return splices
    .sort((a, b) => b.from - a.from)
    .reduce((all, { from, to, text: piece }) => all.slice(0, from) + piece + all.slice(to), text);
};

/** Ids may be numbers. */
const idOf = (key: unknown): string => String(isScalar(key) ? (key.source ?? key.value) : key);

const list = (texts: readonly string[]): string => `[${texts.map(quoted).join(', ')}]`;

/** Keys that come or go: what the command line added, cues where there were none, readings that hold no longer. */
const withKeys = (
  text: string,
  template: Template,
  { cues, reel, smaller, settings }: TemplateChanges,
): string => {
  const document = parse(text);
  const set = (key: string, value: unknown): void => {
    document.set(key, document.createNode(value, { flow: true }));
    changed = true;
  };
  let changed = false;
  if (!document.has('cues')) set('cues', cues);
  if (reel !== null) set('reel', reel);
  if (!isSame(settings.settle, template.settle)) set('settle', settings.settle);
  if (!isSame(settings.headroom, template.headroom)) set('headroom', settings.headroom);
  if (settings.split !== template.split && settings.split !== null) set('split', settings.split);
  for (const { instrument, articulation } of newPins(template, settings)) {
    const pin = { instrument, ...(articulation === null ? {} : { articulation }) };
    if (!document.has('pins')) set('pins', []);
    document.addIn(['pins'], document.createNode(pin, { flow: true }));
    changed = true;
  }
  // What a player showed for the full instrument says nothing of the smaller one.
  const instruments = document.get('instruments', true);
  for (const { key, value } of isMap(instruments) ? instruments.items : []) {
    if (!isMap(value) || !smaller.has(idOf(key)) || !value.has('measured')) continue;
    value.delete('measured');
    changed = true;
  }
  return changed ? document.toString({ lineWidth: 0 }) : text;
};

/** Pins of the command line that the template does not have: twice the same is an error there. */
const newPins = ({ pins }: Template, settings: PlanSettings): PlanSettings['pins'] => {
  const nameOf = ({ instrument, articulation, keys, velocities }: PlanSettings['pins'][number]) =>
    JSON.stringify([instrument, articulation, keys, velocities]);
  const known = new Set(pins.map(nameOf));
  return settings.pins.slice(pins.length).filter((pin) => {
    const isNew = !known.has(nameOf(pin));
    known.add(nameOf(pin));
    return isNew;
  });
};

const parse = (text: string): Document.Parsed => parseDocument(text, { uniqueKeys: false });

const isSame = (a: object, b: object): boolean =>
  JSON.stringify(Object.entries(a).sort()) === JSON.stringify(Object.entries(b).sort());
