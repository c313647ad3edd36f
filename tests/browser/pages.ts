import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { demoFiles } from '../../src/demo/demo.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan } from '../../src/jobs/plan.ts';
import { page } from '../../src/jobs/report-page.ts';
import { report } from '../../src/jobs/report.ts';
import type { Overview } from '../../src/overview/overview.ts';
import { toJson } from '../../src/report/json.ts';
import { withMessages } from '../../src/report/messages.ts';
import { smallRig } from '../overview/small-rig.ts';
import { hostileOf } from './hostile-overview.ts';
import { largeOf } from './large-overview.ts';

/** A page on disk, and what it was made from. */
export interface MadePage {
  readonly overview: Overview;
  readonly html: string;
  readonly url: string;
}

export const pageNames = ['demo', 'missing', 'small', 'hostile', 'large'] as const;
export type PageName = (typeof pageNames)[number];

export interface Pages {
  readonly made: Readonly<Record<PageName, MadePage>>;
  /** Writes another page beside them. */
  readonly write: (name: string, html: string) => string;
  readonly remove: () => void;
}

/**
 * The pages that are looked at: the demo, all of it; its keep file with the revision that asks for what
 * was dropped; a small rig that does the same; that under hostile names; and one as large as they come.
 */
export const makePages = async (): Promise<Pages> => {
  const folder = mkdtempSync(join(tmpdir(), 'keepset-pages-'));
  const write = (name: string, html: string): string => {
    const path = join(folder, `${name}.html`);
    writeFileSync(path, html);
    return pathToFileURL(path).href;
  };
  const pageOf = async (name: PageName, overview: Overview): Promise<MadePage> => {
    const html = await page(overview);
    return { overview, html, url: write(name, html) };
  };
  const held = async (
    content: Readonly<Record<string, Uint8Array | string>>,
    cues: string,
  ): Promise<Overview> => {
    const keep = toJson(withMessages(await plan({ files: new MemoryFiles(content) })));
    const files = new MemoryFiles({ ...content, 'keep.json': keep });
    return report({ files, keep: 'keep.json', cues: [cues], title: 'The Harbour' });
  };
  const content = Object.fromEntries(demoFiles().map(({ path, bytes }) => [path, bytes]));
  const demo = await report({ files: new MemoryFiles(content), title: 'The Harbour' });
  const missing = await held(content, 'revisions');
  const small = await held(smallRig, 'later');
  const made = {
    demo: await pageOf('demo', demo),
    missing: await pageOf('missing', missing),
    small: await pageOf('small', small),
    hostile: await pageOf('hostile', hostileOf(small)),
    large: await pageOf('large', largeOf(demo)),
  };
  return { made, write, remove: () => rmSync(folder, { recursive: true }) };
};
