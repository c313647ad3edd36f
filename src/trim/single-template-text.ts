import { quoted } from '../draft/yaml-text.ts';
import type { Template } from '../template/template.ts';
import { leftOutNotes } from './left-out-notes.ts';
import type { TemplateChanges } from './template-changes.ts';

/** A template for one instrument that plays all, which had none. */
export const singleText = ({ instruments: [one] }: Template, changes: TemplateChanges): string => {
  const { cues, smaller, settings } = changes;
  const { id, source } = one!;
  const preset = source.kind === 'soundfont' ? source.preset : null;
  const fields = [
    `file: ${quoted(smaller.get(id)!)}`,
    ...(preset === null ? [] : [`preset: "${String(preset.bank)}:${String(preset.program)}"`]),
  ];
  const { settle, headroom, pins, slack, split } = settings;
  const { keys, velocity, controller } = headroom;
  return [
    '# Made by keepset trim: a smaller instrument, with what the cues need and no more. Keep the full one:',
    '# keepset check holds revised cues against that. A plan with this can not tell what is missing.',
    ...leftOutNotes(changes),
    `cues: [${cues.map(quoted).join(', ')}]`,
    ...(split === null ? [] : [`split: ${split}`]),
    'instruments:',
    `  ${quoted(id)}: { ${fields.join(', ')} }`,
    'routes:',
    `  - { track: "*", instrument: ${quoted(id)} }`,
    ...(Object.keys(settle).length === 0 ? [] : [`settle: ${flow(settle)}`]),
    ...(keys + velocity + controller === 0 ? [] : [`headroom: ${flow(headroom)}`]),
    ...(slack === 0 ? [] : [`slack: ${String(Math.round(slack * 1000))} ms`]),
    ...(pins.length === 0 ? [] : ['pins:']),
    ...pins.map(({ instrument, articulation }) =>
      articulation === null
        ? `  - { instrument: ${quoted(instrument)} }`
        : `  - { instrument: ${quoted(instrument)}, articulation: ${quoted(articulation)} }`,
    ),
    '',
  ].join('\n');
};

const flow = (values: object): string =>
  `{ ${Object.entries(values)
    .map(([key, value]) => `${key}: ${String(value)}`)
    .join(', ')} }`;
