import { describe, expect, test } from 'vitest';
import { escapeHeading, escapeStart, escapeText } from '../../../src/report/markdown/escape.ts';
import { all, everything, parse, shown } from './parse.ts';

describe('inside a line', () => {
  test.each([
    ['a | b', String.raw`a \| b`],
    ['C:\\cues', String.raw`C:\\cues`],
    ['*loud*', String.raw`\*loud\*`],
    ['_soft_', String.raw`\_soft\_`],
    ['`code`', String.raw`\`code\``],
    ['<b>', String.raw`\<b>`],
    ['[a](b)', String.raw`\[a\](b)`],
    ['~~gone~~', String.raw`\~\~gone\~\~`],
    ['&amp;', String.raw`\&amp;`],
    ['http://a.b', String.raw`http\://a.b`],
    ['www.a.b', String.raw`www\.a.b`],
    // Left as it is: it means nothing there, and people read it.
    ['sus_C4_ff.wav', 'sus_C4_ff.wav'],
    ['<0.1', '<0.1'],
    ['Dock & Chains', 'Dock & Chains'],
    ['F#2 (42)', 'F#2 (42)'],
    ['12 - 14', '12 - 14'],
  ])('%s', async (text, escaped) => {
    expect(escapeText(text)).toBe(escaped);
    const root = await parse(`So: ${escaped}\n`);
    expect(shown(root)).toBe(`So: ${text}`);
    expect(everything(root).map(({ type }) => type)).toEqual(['root', 'paragraph', 'text']);
  });
});

test.each([
  ...['# a', '- a', '+ a', '* a', '> a', '1. a', '12) a', '---', '===', '***', '```', '| a |'],
  ...['[ ] a', '[a]: b', '<!-- a', '=', '+', '-', '1.', '    a'.trim()],
])('%j begins no block', async (text) => {
  const root = await parse(`${escapeStart(text)}\n`);
  expect(shown(root)).toBe(text);
  expect(everything(root).map(({ type }) => type)).toEqual(['root', 'paragraph', 'text']);
});

test('a heading keeps the signs at its end', async () => {
  const root = await parse(`## ${escapeHeading('Etude in F #')}\n`);
  expect(shown(root)).toBe('Etude in F #');
  expect(all(root, 'heading')).toHaveLength(1);
});
