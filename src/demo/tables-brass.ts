import { fades, layers, table, type OrchestraTable } from './zone-rows.ts';

/** Brass: the sizes as a listing of its files shows them, and no rate, bits or channels at all. */
const columns = [
  ...(['articulation', 'switch', 'keys', 'velocities', 'controllers'] as const),
  ...(['round-robin', 'microphone', 'bytes'] as const),
] as const;

const microphone = 'close|tree|hall';

export const brassTables = (): readonly OrchestraTable[] => [
  horns(),
  trumpets(),
  trombones(),
  tuba(),
];

/** Switched by program changes, as the horns of the cues are: programs count from 0. */
const horns = (): OrchestraTable => {
  const every = { keys: 'A1..F5 every 3', microphone };
  return table('horns', columns, [
    {
      ...{ articulation: 'sustain', switch: 'program 60', controllers: fades(14, 36, 68, 100) },
      ...{ bytes: '2.7 MB', ...every },
    },
    {
      ...{ articulation: 'staccato', switch: 'program 61', velocities: layers(40, 72, 104) },
      ...{ 'round-robin': '4', bytes: '420 KiB', ...every },
    },
    {
      ...{ articulation: 'stopped', switch: 'program 62', velocities: layers(80) },
      ...{ bytes: '1.9 MB', ...every },
    },
    {
      ...{ articulation: 'rip', switch: 'program 63', velocities: layers(64, 100) },
      ...{ 'round-robin': '3', bytes: '1.1 MB', ...every },
    },
  ]);
};

const trumpets = (): OrchestraTable => {
  const every = { keys: 'E3..D6 every 2', microphone };
  return table('trumpets', columns, [
    {
      ...{ articulation: 'sustain', switch: 'C1', controllers: fades(14, 36, 68, 100) },
      ...{ bytes: '2.4 MB', ...every },
    },
    {
      ...{ articulation: 'staccato', switch: 'C#1', velocities: layers(40, 72, 104) },
      ...{ 'round-robin': '4', bytes: '380 KiB', ...every },
    },
    {
      ...{ articulation: 'con sordino', switch: 'D1', controllers: fades(14, 64) },
      ...{ bytes: '2.2 MB', ...every },
    },
  ]);
};

const trombones = (): OrchestraTable => {
  const every = { keys: 'E1..C5 every 3', microphone };
  return table('trombones', columns, [
    {
      ...{ articulation: 'sustain', switch: 'C6', controllers: fades(14, 40, 70, 98) },
      ...{ bytes: '2.9 MB', ...every },
    },
    {
      ...{ articulation: 'staccato', switch: 'C#6', velocities: layers(40, 72, 104) },
      ...{ 'round-robin': '4', bytes: '450 KiB', ...every },
    },
  ]);
};

const tuba = (): OrchestraTable =>
  table('tuba', columns, [
    {
      ...{ articulation: 'sustain', keys: 'D1..F4 every 3', controllers: fades(14, 48, 88) },
      ...{ microphone, bytes: '3 MB' },
    },
  ]);
