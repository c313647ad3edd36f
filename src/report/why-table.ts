import { asksAll, type Why } from '../keep/why/why.ts';
import { keyLabel } from '../terms/key.ts';
import { formatBytes, formatCount, plural } from './format.ts';
import { keyMapText } from './key-map-text.ts';
import type { Look } from './look.ts';
import { nameInText } from './name-list.ts';
import { paragraph } from './paragraph.ts';
import { whySummary } from './why-summary.ts';
import { whyZones } from './why-zones.ts';

const bytesOf = (zones: readonly { readonly bytes: number }[]): number =>
  zones.reduce((sum, { bytes }) => sum + bytes, 0);

/** What was asked for, as it was said. */
const askedText = ({ asked }: Why, look: Look): string => {
  const { zone, key, velocity, articulation, sample } = asked;
  return [
    ...(zone === null ? [] : [`zone ${String(zone)}`]),
    ...(articulation === null ? [] : [nameInText(articulation, look)]),
    ...(sample === null ? [] : [nameInText(sample, look)]),
    ...(key === null ? [] : [keyLabel(key, look.middleC)]),
    ...(velocity === null ? [] : [`velocity ${String(velocity)}`]),
  ].join(', ');
};

const heading = (why: Why, look: Look): readonly string[] => {
  const { bold, cyan } = look.colors;
  const { instrument, machine, kept, dropped, asked } = why;
  const zones = kept.length + dropped.length;
  const what = asksAll(asked) ? '' : `, ${askedText(why, look)}`;
  return paragraph(
    [
      { text: nameInText(instrument, look), paint: (text) => bold(cyan(text)) },
      `on machine ${nameInText(machine, look)}${what}:`,
      `${formatCount(kept.length)} of ${plural(zones, 'zone')} stay,`,
      `${formatBytes(bytesOf(kept))} of ${formatBytes(bytesOf(kept) + bytesOf(dropped))} in their samples.`,
    ],
    look.width,
  );
};

/** Where what was asked for lies among its neighbours. */
const mapped = ({ map, asked }: Why, look: Look): readonly string[] =>
  map === null ? [] : keyMapText(map, look, { title: 'Keys and layers', marked: asked.key });

/** Why zones stay or went: one by one where some were asked for, else by layer. */
export const whyTable = (why: Why, plainLook: Look): string => {
  const look: Look = { ...plainLook, middleC: why.middleC };
  const sections: readonly (readonly string[])[] = [
    heading(why, look),
    mapped(why, look),
    ...(asksAll(why.asked) ? whySummary(why, look) : whyZones(why, look)),
  ];
  return `${sections
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
};
