import { fades, layers, table, type OrchestraTable } from './zone-rows.ts';

const columns = [
  ...(['articulation', 'switch', 'keys', 'velocities', 'controllers', 'round-robin'] as const),
  ...(['microphone', 'release', 'seconds', 'rate', 'bits', 'channels'] as const),
] as const;

const sound = { rate: '48000', bits: '24', channels: '2' } as const;

const stage = 'close|tree|wide|hall';
const solo = 'close|tree|hall';

/** Strings, one row an articulation: the sections in four microphones, the soloist in three. */
export const stringTables = (): readonly OrchestraTable[] => [
  highStrings(),
  lowStrings(),
  sectionStrings(),
  basses(),
  fiddle(),
];

const highStrings = (): OrchestraTable => {
  const every = { keys: 'G3..D7 every 1', microphone: stage, ...sound };
  const long = fades(16, 32, 64, 96);
  return table('high-strings', columns, [
    {
      ...{ articulation: 'legato', switch: 'C0', controllers: long, 'round-robin': '2' },
      ...{ seconds: '8.5', ...every },
    },
    { articulation: 'sustain', switch: 'C#0', controllers: long, seconds: '11', ...every },
    { articulation: 'tremolo', switch: 'D0', controllers: fades(16, 64), seconds: '7', ...every },
    {
      ...{ articulation: 'staccato', switch: 'D#0', velocities: layers(40, 72, 104) },
      ...{ 'round-robin': '4', seconds: '0.9', ...every },
    },
    {
      ...{ articulation: 'harmonics', switch: 'E0', seconds: '6', ...every },
      keys: 'G5..D7 every 1',
    },
    // Belongs to every articulation: what is heard when the bows leave the strings.
    { release: 'yes', seconds: '1.6', ...every },
  ]);
};

const lowStrings = (): OrchestraTable => {
  const every = { keys: 'C2..C5 every 2', microphone: stage, ...sound };
  return table('low-strings', columns, [
    {
      ...{ articulation: 'sustain', switch: 'C6', controllers: fades(12, 28, 56, 84, 104) },
      ...{ 'round-robin': '3', seconds: '12', ...every },
    },
    {
      ...{ articulation: 'legato', switch: 'C#6', controllers: fades(12, 42, 84) },
      ...{ 'round-robin': '6', seconds: '8', ...every },
    },
    { articulation: 'tremolo', switch: 'D6', controllers: fades(12, 64), seconds: '7', ...every },
    {
      ...{ articulation: 'spiccato', switch: 'D#6', velocities: layers(40, 72, 104) },
      ...{ 'round-robin': '8', seconds: '0.8', ...every },
    },
    { release: 'yes', seconds: '1.8', ...every },
  ]);
};

/** All of the strings at once, for short notes and with mutes; the lists of one row multiply. */
const sectionStrings = (): OrchestraTable => {
  const every = { keys: 'C2..C6 every 2', microphone: stage, ...sound };
  return table('section-strings', columns, [
    {
      ...{ articulation: 'staccato', switch: 'C0', velocities: layers(36, 64, 96) },
      ...{ 'round-robin': '4', seconds: '1.1', ...every },
    },
    {
      ...{ articulation: 'pizzicato', switch: 'C#0', velocities: layers(48, 88) },
      ...{ 'round-robin': '3', seconds: '1.8', ...every },
    },
    {
      ...{ articulation: 'con sordino', switch: 'D0', controllers: fades(16, 48, 88) },
      ...{ seconds: '10', ...every },
    },
    {
      ...{ articulation: 'col legno', switch: 'D#0', velocities: layers(72) },
      ...{ 'round-robin': '3', seconds: '0.8', ...every },
    },
    {
      ...{ articulation: 'spiccato', switch: 'E0', velocities: layers(48, 88) },
      ...{ 'round-robin': '4', seconds: '0.9', ...every },
    },
  ]);
};

const basses = (): OrchestraTable => {
  const every = { keys: 'C1..G3 every 3', microphone: solo, ...sound };
  return table('basses', columns, [
    {
      ...{ articulation: 'arco', switch: 'C5', controllers: fades(12, 40, 72, 100) },
      ...{ seconds: '11', ...every },
    },
    {
      ...{ articulation: 'pizzicato', switch: 'C#5', velocities: layers(48, 88) },
      ...{ 'round-robin': '4', seconds: '2.5', ...every },
    },
    { articulation: 'arco', release: 'yes', seconds: '1.4', ...every },
  ]);
};

/** A soloist; her keyswitches stay down until the next, well below her range. */
const fiddle = (): OrchestraTable => {
  const every = { keys: 'G3..E7 every 2', microphone: solo, ...sound };
  return table('fiddle', columns, [
    {
      ...{ articulation: 'legato', switch: 'C1', controllers: fades(16, 40, 72, 104) },
      ...{ 'round-robin': '2', seconds: '7', ...every },
    },
    {
      ...{ articulation: 'pizzicato', switch: 'C#1', velocities: layers(44, 84) },
      ...{ 'round-robin': '4', seconds: '1.5', ...every },
    },
    {
      ...{ articulation: 'tremolo', switch: 'D1', controllers: fades(16, 48, 96) },
      ...{ seconds: '6', ...every },
    },
    { articulation: 'harmonics', switch: 'D#1', seconds: '5', ...every, keys: 'G4..E7 every 3' },
    { articulation: 'legato', release: 'yes', seconds: '0.7', ...every },
  ]);
};
