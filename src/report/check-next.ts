import type { Check } from '../keep/check/check.ts';
import { keyName } from '../terms/key.ts';
import { bullets } from './bullets.ts';
import type { Look } from './look.ts';
import { nameInText } from './name-list.ts';

const missing = (path: string): readonly string[] => [
  'Load again what is listed here, or take one of the other ways out. The ways are advice: no cue is changed.',
  `Or plan again with these cues: keepset plan writes a new keep file, and keepset diff ${path} with the new one says what to load and what may go.`,
];

const steps = ({ verdict, open, keep, loaded }: Check, look: Look): readonly string[] => {
  const path = nameInText(keep.path, look);
  const clearUp =
    open.length === 0
      ? []
      : ['Clear up what stands against a proof, then check again: until then unload nothing more.'];
  switch (verdict) {
    case 'missing':
      return [...missing(path), ...clearUp];
    case 'not-proved':
      return clearUp;
    case 'proved':
      return loaded === null
        ? [`Nothing: what ${path} keeps is enough for these cues.`]
        : [
            'Nothing: what is loaded now is enough for these cues. Check again when more is unloaded.',
          ];
  }
};

/** What to do next, and the caution that holds in any case. */
export const checkNext = (check: Check, look: Look): readonly string[] =>
  bullets(
    'What to do next',
    [
      ...steps(check, look),
      'Keep the full template somewhere safe. All figures are estimates: the display of the player has the last word.',
      ...(check.misses.length === 0
        ? []
        : [`Keys: middle C is ${keyName(60, look.middleC)} (60). Tracks count from 0.`]),
    ].map((sentence) => [sentence]),
    look,
  );
