import type { Plan, PlanAllowance, PlanInstrument, PlanPin } from '../keep/plan.ts';
import { doubtNames } from '../terms/doubt.ts';
import { keyRangeLabel } from '../terms/key.ts';
import type { Range } from '../terms/range.ts';
import { bullets } from './bullets.ts';
import { formatBytes, plural } from './format.ts';
import type { Look } from './look.ts';
import { nameInText, nameList } from './name-list.ts';

/** Pins in one sentence list at most this many, or all where details are asked for. */
const mostPins = 8;

/** What the user chose and what it does to the plan; nothing where nothing was chosen. */
export const choices = (plan: Plan, look: Look): readonly string[] =>
  bullets(
    'What was chosen',
    [
      ...headroom(plan),
      ...pins(plan, look),
      ...slack(plan),
      ...ownAnswers(plan, look),
      ...printed(plan),
    ].map((sentence) => [sentence]),
    look,
  );

const headroom = ({ settings: { headroom: room }, allowances }: Plan): readonly string[] => {
  const parts = [
    ...(room.keys > 0 ? [plural(room.keys, 'key')] : []),
    ...(room.velocity > 0 ? [plural(room.velocity, 'step of velocity', 'steps of velocity')] : []),
    ...(room.controller > 0
      ? [plural(room.controller, 'step of a controller', 'steps of a controller')]
      : []),
  ];
  return parts.length === 0
    ? []
    : [
        `Headroom: ${parts.join(', ')} to either side of what is played stay too; ${cost(allowances.headroom)}.`,
      ];
};

/** What a choice keeps that would go without it. */
const cost = ({ zones, bytes }: PlanAllowance): string =>
  zones === 0 ? 'that costs nothing' : `${formatBytes(bytes)} (${plural(zones, 'zone')})`;

const pins = ({ settings, allowances }: Plan, look: Look): readonly string[] => {
  if (settings.pins.length === 0) return [];
  const shown = settings.pins.slice(0, look.details === true ? Infinity : mostPins);
  const rest = settings.pins.length - shown.length;
  const list = shown
    .map((pin, i) => `${pinWords(pin, look)}: ${cost(allowances.pins[i]!)}`)
    .join('; ');
  return [`Pinned, kept regardless: ${list}${rest > 0 ? `; and ${String(rest)} more` : ''}.`];
};

const pinWords = (pin: PlanPin, look: Look): string =>
  [
    nameInText(pin.instrument, look) +
      (pin.articulation === null ? '' : `/${nameInText(pin.articulation, look)}`),
    ...(pin.keys === null ? [] : [keyRangeLabel(pin.keys, look.middleC)]),
    ...(pin.velocities === null ? [] : [`velocity ${span(pin.velocities)}`]),
  ].join(' ');

const span = ([lo, hi]: Range): string => (lo === hi ? String(lo) : `${String(lo)}-${String(hi)}`);

const slack = ({ settings }: Plan): readonly string[] =>
  settings.slack === 0
    ? []
    : [
        `Slack: within ${String(Math.round(settings.slack * 1000))} ms a switch and a note may stand in either order.`,
      ];

/** Answers that hold for some instruments only, the same ones together. */
const ownAnswers = ({ settings, instruments }: Plan, look: Look): readonly string[] => {
  const answered = (answer: 'plain' | 'accept') =>
    doubtNames.flatMap((doubt) => {
      const own = instruments.filter(
        ({ settle }: PlanInstrument) =>
          settle[doubt] === answer && settings.settle[doubt] !== answer,
      );
      const names = nameList(
        own.map(({ id }) => id),
        look,
      );
      const verb = answer === 'plain' ? 'settled as plain' : 'accepted';
      return own.length === 0 ? [] : [`Doubt ${doubt} is ${verb} for ${names}.`];
    });
  return [...answered('plain'), ...answered('accept')];
};

const printed = ({ printed: { parts, zones, bytes } }: Plan): readonly string[] => {
  if (parts === 0) return [];
  const tracks = `Already audio: ${plural(parts, 'track')};`;
  const their = parts === 1 ? 'its' : 'their';
  return [
    zones === 0
      ? `${tracks} what ${their} sounds need stays anyway.`
      : `${tracks} ${their} sounds would take ${formatBytes(bytes)} more (${plural(zones, 'zone')}).`,
  ];
};
