import type { NotPrimed, Primer } from '../primer/primer.ts';
import { bullets } from './bullets.ts';
import { plural } from './format.ts';
import type { Look } from './look.ts';
import { nameInText, nameList } from './name-list.ts';

const why: Readonly<Record<NotPrimed['because'], string>> = {
  doubt: 'nothing starts them for certain',
  others: 'no note starts them without something that was dropped',
  conditions: 'what they ask for can not be sent, and no bars of the cues start them',
  'no-track': 'no track of the cues reaches their copy',
  picked: 'their player picks them by itself, and no bars of the cues start them for certain',
  tied: 'the route ties this copy to another articulation, and they stay since the player unloads no smaller part',
};

/** Zones that are named of each instrument. */
const mostNamed = 3;

/** What stays and is not loaded, by instrument and reason. */
export const primerLacks = ({ notPrimed }: Primer, look: Look): readonly string[] =>
  listed(
    'Not loaded: play its cues, or load it by hand',
    notPrimed.filter(({ because }) => because !== 'tied'),
    look,
  );

/** What stays and no note can ask for: nothing is wrong where it is not loaded. */
export const primerNotNeeded = ({ notPrimed }: Primer, look: Look): readonly string[] =>
  listed(
    'Not loaded: no cue can play it there',
    notPrimed.filter(({ because }) => because === 'tied'),
    look,
  );

const listed = (heading: string, notPrimed: Primer['notPrimed'], look: Look): readonly string[] => {
  if (notPrimed.length === 0) return [];
  const groups = new Map<string, NotPrimed[]>();
  for (const one of notPrimed) {
    const key = JSON.stringify([one.instrument, one.copy, one.because]);
    const own = groups.get(key);
    if (own === undefined) groups.set(key, [one]);
    else own.push(one);
  }
  return bullets(
    heading,
    [...groups.values()].map((own) => {
      const { instrument, copy, because } = own[0]!;
      const keys = own.map(({ key, zone }) => key ?? `zone ${String(zone)}`);
      const where = copy === null ? '' : ` (copy ${nameInText(copy, look)})`;
      return [
        `${nameInText(instrument, look)}${where}: ${plural(own.length, 'zone')}, ${why[because]}: ${nameList(keys, look, mostNamed)}.`,
      ];
    }),
    look,
  );
};
