import type { Overview } from '../../overview/overview.ts';
import { composerSection } from './composer.ts';
import { findingsSection } from './findings.ts';
import { howToReadSection } from './how-to-read.ts';
import { markup, Html } from './html.ts';
import { instrumentsSection } from './instruments.ts';
import { mapsSection } from './maps.ts';
import { matrixSection } from './matrix.ts';
import { mixSection } from './mix.ts';
import { shown } from './names.ts';
import { pageData } from './page-data.ts';
import { reelSection } from './reel.ts';
import { technicianSection } from './technician.ts';
import { verdictSection } from './verdict.ts';
import { worklistSection } from './worklist.ts';

/** What the page needs beside its data: texts that go into it, and the digest by which it allows them. */
export interface PageAssets {
  readonly script: string;
  readonly style: string;
  /** SHA-256 of the text in UTF-8, as base64. */
  readonly sha256Base64: (text: string) => string;
}

/** How a page begins: by this a later run knows a page of its own. */
export const pageBeginning = '<!doctype html>\n<!-- keepset/report@1 -->';

const parts = [
  ['technician', 'Technician'],
  ['composer', 'Composer'],
  ['mix', 'Mix'],
  ['instruments', 'Instruments'],
  ['maps', 'Keys and layers'],
  ['matrix', 'Cues and instruments'],
  ['reel', 'Memory along the reel'],
  ['worklist', 'Worklist'],
  ['findings', 'Findings'],
  ['reading', 'How to read'],
] as const;

const contents = markup`<nav aria-label="Contents"><ul>${parts.map(([id, title]) => markup`<li><a href="#${id}">${title}</a>`)}</ul></nav>`;

/** Shown by the script, without which they would do nothing. */
const tools = markup`<div id=tools hidden><span role=group aria-label="Colours"><button type=button data-theme="" aria-pressed=true>As the system</button> <button type=button data-theme="light" aria-pressed=false>Light</button> <button type=button data-theme="dark" aria-pressed=false>Dark</button></span> <span><button type=button id=save>Save data</button> <button type=button data-print="worklist">Print the worklist</button> <button type=button data-print="all">Print everything</button></span></div>`;

/** Nothing but the two texts that the page holds may run or style, and nothing is fetched (CSP Level 3). */
const policy = ({ script, style, sha256Base64 }: PageAssets): string =>
  [
    "default-src 'none'",
    `script-src 'sha256-${sha256Base64(script)}'`,
    `style-src 'sha256-${sha256Base64(style)}'`,
    "img-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');

const figuresOf = (sha256: string): string => sha256.replace(/[^0-9a-f]/g, '');

/**
 * An overview as one HTML file, which holds all it needs: it works from a disk, without a network, and
 * without its script shows everything. Pure: the same overview gives the same bytes.
 */
export const reportPage = (overview: Overview, assets: PageAssets): string => {
  const title = shown(overview.title ?? 'What must stay loaded');
  // The digests at the foot of each printed page come from the data, so they are a style of their own.
  const digests = [
    overview.keep.sha256 === null
      ? 'no keep file'
      : `keep file sha256 ${figuresOf(overview.keep.sha256)}`,
    ...(overview.template === null
      ? []
      : [`template sha256 ${figuresOf(overview.template.sha256)}`]),
  ];
  const style = `${assets.style}@page{@bottom-left{content:"${digests.join(String.raw`\a `)}"}}\n`;
  const head = markup`<html lang="en"><head><meta charset="utf-8" /><meta http-equiv="Content-Security-Policy" content="${new Html(policy({ ...assets, style }))}" /><meta name=viewport content="width=device-width,initial-scale=1" /><meta name=generator content="keepset" /><title>${title}</title><style>${new Html(style)}</style></head>`;
  const body = markup`<body><a class=skip href="#main">To the report</a><header><h1>${title}</h1>${tools}${contents}</header><main id=main>${verdictSection(overview)}${technicianSection(overview)}${composerSection(overview)}${mixSection(overview)}${instrumentsSection(overview)}${mapsSection(overview)}${matrixSection(overview)}${reelSection(overview)}${worklistSection(overview)}${findingsSection(overview)}${howToReadSection(overview)}</main>${pageData(overview)}<script>${new Html(assets.script)}</script></body></html>`;
  return `${pageBeginning}\n${head.text}${body.text}\n`;
};
