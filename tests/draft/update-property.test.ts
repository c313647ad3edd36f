import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Document, isCollection, isNode, isPair, parse } from 'yaml';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { draft } from '../../src/jobs/draft.ts';
import { trackName } from './names.ts';
import { routeAll, templateOf } from './route-all.ts';
import { cueOf } from './track-file.ts';

const tracks = (maxLength: number) =>
  fc.array(
    fc.record({
      name: fc.option(trackName, { freq: 10 }),
      channel: fc.integer({ min: 1, max: 2 }),
      keys: fc.constant([60, 64]),
    }),
    { maxLength },
  );

interface Style {
  /** What stands in brackets and braces; the rest stands in blocks. */
  readonly flow: 'nothing' | 'rules' | 'sections' | 'all';
  readonly comments: boolean;
  readonly lineEnd: string;
  readonly indentSeq: boolean;
  readonly lastLineEnds: boolean;
}

const style: fc.Arbitrary<Style> = fc.record({
  flow: fc.constantFrom('nothing', 'rules', 'sections', 'all'),
  comments: fc.boolean(),
  lineEnd: fc.constantFrom('\n', '\r\n'),
  indentSeq: fc.boolean(),
  lastLineEnds: fc.boolean(),
});

/** From which level on, the whole file being 0, everything stands in brackets. */
const flowFrom = { nothing: Infinity, rules: 2, sections: 1, all: 0 } as const;

/** Sets the style of a node and all below it. */
const paint = (node: unknown, how: Style, level = 0): void => {
  if (!isCollection(node)) return;
  const isFlow = level >= flowFrom[how.flow];
  if (isFlow) node.flow = true;
  for (const item of node.items) {
    const first = isPair(item) ? item.key : item;
    if (how.comments && !isFlow && level === 1 && isNode(first)) {
      first.commentBefore = ' mine, really';
    }
    paint(isPair(item) ? item.value : item, how, level + 1);
  }
};

/** The same template, written in another way. */
const restyled = (text: string, how: Style): string => {
  const document = new Document(parse(text) as object);
  paint(document.contents, how);
  const { indentSeq, lineEnd, lastLineEnds } = how;
  // The library folds lines in the middle of surrogate pairs.
  const lineWidth = /[\ud800-\udfff]/.test(document.toString({ lineWidth: 0 })) ? 0 : 60;
  const made = document.toString({ indentSeq, lineWidth }).replaceAll('\n', lineEnd);
  return lastLineEnds ? `${made}# the end${lineEnd}` : made.trimEnd();
};

test('an update takes what had no rule, keeps the rest, and has nothing to do the second time', async () => {
  await fc.assert(
    fc.asyncProperty(tracks(6), tracks(6), style, async (before, later, how) => {
      const first = { 'cues/1m1.mid': cueOf(before) };
      const drafted = await draft({ cues: ['cues'], files: new MemoryFiles(first) });
      const text = restyled(drafted.text, how);
      const cues = { ...first, 'cues/1m2.mid': cueOf(later) };
      const update = (template: string) =>
        draft({
          cues: ['cues'],
          update: { path: 'keepset.yaml' },
          files: new MemoryFiles({ ...cues, 'keepset.yaml': template }),
        });
      const updated = await update(text);

      let at = 0;
      for (const unit of updated.text.split('')) if (unit === text[at]) at += 1;
      expect(at, 'something of the template is gone').toBe(text.length);

      const [old, now] = [await templateOf(text), await templateOf(updated.text)];
      expect(now.instruments.slice(0, old.instruments.length).map(({ id }) => id)).toEqual(
        old.instruments.map(({ id }) => id),
      );
      expect(now.routes.slice(0, old.routes.length).map(({ rule }) => rule)).toEqual(
        old.routes.map(({ rule }) => rule),
      );
      for (const score of Object.values(cues)) {
        const [then, after] = [routeAll(old, score), routeAll(now, score)];
        expect(after.unmapped).toEqual([]);
        // What had a destination has the same.
        then.destinations.forEach(({ instruments, copies }, i) => {
          if (copies.length > 0) expect(after.destinations[i]!.instruments).toEqual(instruments);
        });
      }
      expect((await update(updated.text)).text).toBe(updated.text);
    }),
    { numRuns: 60 },
  );
});
