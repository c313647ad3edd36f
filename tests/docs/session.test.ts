import { expect, test } from 'vitest';
import { followPages, typedPages } from './follow-pages.ts';
import { sessionPages } from './session-pages.ts';

test('the pages of the session are pages with commands', () => {
  expect(typedPages).toEqual(expect.arrayContaining([...sessionPages]));
});

followPages(sessionPages);
