import { belonging, type Belonging } from './belonging.ts';

/** What belongs where in an outline, beside what a template has too. */
export const outlineBelongings: Readonly<Record<string, Belonging>> = {
  articulation: belonging(
    'what is known of an articulation',
    'Write keys between { and }; a text alone can only be the range it is played in, such as G2-E5; ~ stands for the name alone.',
  ),
  switch: belonging(
    'a switch',
    'Write a key (C0), a program (program 5), a controller and its values ("cc 32: 0-20"), a channel (channel 3), or none for what always sounds.',
  ),
  key: belonging('a key', 'Write its name or its number, such as C-1 or 0.'),
  'key-ranges': belonging(
    'a range of keys',
    'Write the lowest and the highest key, such as G2-E5; several with | between them or as a list.',
  ),
  sampled: belonging(
    'a row of recorded keys',
    'Write the lowest, the highest and the step, such as C2..C6 every 3, or single keys: [C2, E2, G2].',
  ),
  values: belonging(
    'a range of values',
    'Write the lowest and the highest from 0 to 127, such as 64-127.',
  ),
  'layer-values': belonging(
    'a row of layers',
    'Write how many there are, or the values of each: [1-40, 41-90, 91-127].',
  ),
  axis: belonging(
    'something that layers can go by',
    'Write velocity, or cc and the number of a controller, such as cc1.',
  ),
  length: belonging(
    'a length from above 0 to 600 s',
    'Write seconds, or a number and its unit: 8, 8 s or 800 ms.',
  ),
  overlap: belonging(
    'a time of at most ten seconds',
    'Write a number and its unit, such as 80 ms.',
  ),
  rate: belonging(
    'a sample rate from 1 to 400 kHz',
    'Write it in hertz or with its unit: 48000 or 48 kHz.',
  ),
  bits: belonging('a number of bits', 'Write 8, 16, 24 or 32.'),
  held: belonging(
    'a number of keys that are down',
    'Count the key that is struck: 2 is one more beside it, 2-127 is any number more.',
  ),
  when: belonging(
    'a condition',
    'Write keys between { and }, or player-decides for what the player picks by itself.',
  ),
  releases: belonging(
    'what is known of releases',
    'Write yes, no, how long they are (1.2 s), or keys between { and }.',
  ),
  'controller-of': belonging(
    'the number of a controller',
    'Write a whole number from 0 to 127, a colon and the values it has to have.',
  ),
  some: belonging('at least one key', 'Write a key or a range, or take this line out.'),
};
