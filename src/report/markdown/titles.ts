/** What a report in Markdown is headed with, by the kind of result (the beginning of its schema). */
const titles: Readonly<Record<string, string>> = {
  usage: 'What the score plays',
  plan: 'Plan: what must stay loaded',
  check: 'Check against the plan',
  report: 'What must stay loaded',
  memory: 'Memory along the reel',
  diff: 'From one plan to another',
  trim: 'Smaller instruments',
  why: 'Why it stays or goes',
  inspect: 'Instrument',
  primer: 'Primer',
  'primer-verification': 'The primer, played again',
};

/** @param schema such as `keepset/plan@1` */
export const markdownTitle = (schema: string): string => {
  const kind = /^keepset\/([a-z-]+)@/.exec(schema)?.[1] ?? '';
  return titles[kind] ?? kind;
};
