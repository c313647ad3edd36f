import { fold } from '../../src/notation/fold.ts';
import { RouteLog } from '../../src/template/routes/route-log.ts';
import { routeScore, type RoutedInstrument } from '../../src/template/routes/route-score.ts';
import type { RouteFields } from '../../src/template/routes/route-fields.ts';
import type { Routed, RoutedCopy } from '../../src/template/routed.ts';
import type { Route } from '../../src/template/route.ts';
import { singleTemplate } from '../../src/template/single.ts';
import type { Template } from '../../src/template/template.ts';
import { rulesOf } from './rules.ts';
import { scoreOf, type TrackSketch } from './tracks.ts';

const instrument = (
  playedAs: RoutedInstrument['playedAs'],
  articulations: readonly string[],
): RoutedInstrument => ({
  playedAs,
  articulations: articulations.map((name) => ({ name, switch: null, layers: [] })),
});

/** What the tests route to. */
export const instruments: ReadonlyMap<string, RoutedInstrument> = new Map([
  ['piano', instrument('single', [])],
  ['horns', instrument('single', ['sustain', 'Staccato', 'Légato', 'sus', 'SUS'])],
  [
    'bank',
    instrument('bank', ['0:48 Strings', '0:49 Slow Strings', '8:48 Strings 2', '128:0 Kit']),
  ],
  ['twins', instrument('bank', ['0:0 Grand', '1:0 Grand'])],
]);

export const templateOf = (
  routes: readonly Route[],
  names: Readonly<Record<string, string>> = {},
): Template => {
  const whole = singleTemplate('piano', {
    kind: 'soundfont',
    path: 'piano.sf2',
    preset: null,
  });
  return {
    ...whole,
    path: 'keepset.yaml',
    routes,
    names: new Map(Object.entries(names).map(([word, name]) => [fold(word), name])),
    instruments: [...instruments.keys()].map((id) => ({ ...whole.instruments[0]!, id })),
  };
};

/** A copy as one line: `horns: Hn 1 <- 0 p1 c1,2; 1 p1 c1`, ports and channels from 1. */
export const copyLine = ({ instrument: id, name, sources }: RoutedCopy): string =>
  `${id}: ${name} <- ${sources
    .map(({ track, port, channels }) => {
      const list = Array.from({ length: 16 }, (_, i) => i).filter((i) => channels & (1 << i));
      return `${String(track)} p${String(port + 1)} c${list.map((i) => i + 1).join()}`;
    })
    .join('; ')}`;

export interface Case {
  readonly rules: readonly Partial<RouteFields>[];
  readonly tracks: readonly TrackSketch[];
  readonly names?: Readonly<Record<string, string>>;
  readonly cue?: string;
  readonly file?: number;
  readonly missing?: number;
  readonly log?: RouteLog;
}

/** Routes one file. */
export const route = (one: Case): Routed => {
  const { score, parts } = scoreOf(one.tracks, one.missing);
  const template = templateOf(rulesOf(one.rules), one.names);
  const { cue = '1m1', file = 0, log = new RouteLog() } = one;
  return routeScore(template, cue, score, parts, file, instruments, log);
};

/** The copies of one file, a line each. */
export const copies = (one: Case): readonly string[] => route(one).copies.map(copyLine);
