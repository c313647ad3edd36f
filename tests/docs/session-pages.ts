/** Pages that plan, unload and check the whole demo: they share what was run, so they are one test file. */
export const sessionPages: readonly string[] = [
  'README.md',
  'docs/explanation/memory.md',
  'docs/how-to/check-a-revision.md',
  'docs/how-to/show-the-result.md',
  'docs/how-to/unload-by-hand.md',
  'docs/tutorial.md',
];
