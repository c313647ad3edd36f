import { expect, test } from 'vitest';
import { ascii } from '../../instruments/soundfont/bank-bytes.ts';
import type { TrimPlan } from './bank.ts';
import { hex } from './naive-reader.ts';
import { keeping, trimPlan } from './trimming.ts';

/**
 * Two presets over two instruments over a stereo pair and a mono sample. What stays: the preset "Bell"
 * with one zone of the instrument "bell" and the right half of the pair, and a place for the preset
 * "Gong". Point n of the sound is the word 13 n + 7 (see `highWord`). The bytes below were written out
 * by this code and then checked by hand against the record layouts of the specification.
 */
const plan: TrimPlan = {
  info: [
    ['isng', ascii('any\0')],
    ['INAM', ascii('Tiny\0\0')],
    ['ISFT', ascii('maker\0')],
  ],
  presets: [
    { name: 'Gong', bank: 0, program: 1, zones: [{ generators: [[41, 0]] }] },
    {
      name: 'Bell',
      bank: 128,
      program: 0,
      zones: [
        { generators: [[48, 20]] },
        {
          generators: [
            [43, 0x3c00],
            [41, 1],
          ],
          modulators: [[0x0502, 48, 960, 0, 0]],
        },
        { generators: [[41, 0]] },
      ],
    },
  ],
  instruments: [
    { name: 'gong', zones: [{ generators: [[53, 0]] }] },
    {
      name: 'bell',
      zones: [
        { generators: [[54, 1]] },
        {
          generators: [
            [17, 500],
            [53, 2],
          ],
        },
        {
          generators: [
            [43, 0x7f20],
            [17, 0xfe0c],
            [53, 1],
          ],
        },
      ],
    },
  ],
  samples: [
    { name: 'gong', start: 0, end: 40 },
    { name: 'bell R', start: 86, end: 96, loop: [88, 94], type: 2, link: 2, cents: -3 },
    { name: 'bell L', start: 142, end: 152, type: 4, link: 1 },
  ],
  points: 198,
};

/** What stands behind `;` is for the reader. */
const golden = `
52494646 a6020000 7366626b                       ; RIFF, 678 bytes: sfbk
4c495354 5e000000 494e464f                       ; LIST, 94 bytes: INFO
6966696c 04000000 02000100                       ; ifil: 2.01
69736e67 04000000 616e7900                       ; isng, as it was
494e414d 06000000 54696e79 0000                  ; INAM, as it was
49534654 0e000000 6d616b65 723a6b65 65707365 7400 ; ISFT "maker:keepset"
49434d54 16000000                                ; ICMT, 22 bytes: the note
5472696d 6d656420 666f7220 74686520 74657374 2e00
4c495354 7c000000 73647461                       ; LIST, 124 bytes: sdta
736d706c 70000000                                ; smpl, 112 bytes: points 86 to 141, 10 of them the sample's own, 46 behind it
65047204 7f048c04 9904a604 b304c004 cd04da04 e704f404 01050e05 1b052805
35054205 4f055c05 69057605 83059005 9d05aa05 b705c405 d105de05 eb05f805
05061206 1f062c06 39064606 53066006 6d067a06 87069406 a106ae06 bb06c806
d506e206 ef06fc06 09071607 23073007
4c495354 b0010000 70647461                       ; LIST, 432 bytes: pdta
70686472 72000000                                ; phdr, three records of 38 bytes
476f6e67 00000000 00000000 00000000 00000000     ; Gong
01000000 00000100 00000200 00000300 0000         ; program 1, bank 0, zones from 0; then what the unused fields held
42656c6c 00000000 00000000 00000000 00000000     ; Bell
00008000 01000100 00000200 00000300 0000         ; program 0, bank 128, zones from 1
454f5000 00000000 00000000 00000000 00000000     ; EOP
00000000 03000000 00000000 00000000 0000         ; 3 zones in all
70626167 10000000                                ; pbag: generators and modulators from
00000000 03000000 04000000 06000100              ; 0 and 0, 3 and 0, 4 and 0; 6 and 1 in all
706d6f64 14000000                                ; pmod
02053000 c0030000 0000                           ; velocity to attenuation, as it was
00000000 00000000 0000                           ; terminal
7067656e 1c000000                                ; pgen
2b000000 2c000000 29000000                       ; keys 0-0, velocities 0-0, instrument 0: a place that no note reaches
30001400                                         ; attenuation 20: the global zone of Bell
2b00003c 29000000                                ; keys 0-60, instrument 0, which was 1
00000000                                         ; terminal
696e7374 2c000000                                ; inst
62656c6c 00000000 00000000 00000000 00000000     ; bell
0000                                             ; zones from 0
454f4900 00000000 00000000 00000000 00000000     ; EOI
0200                                             ; 2 zones in all
69626167 0c000000                                ; ibag
00000000 01000000 04000000                       ; 0 and 0, 1 and 0; 4 and 0 in all
696d6f64 0a000000                                ; imod
00000000 00000000 0000                           ; terminal
6967656e 14000000                                ; igen
36000100                                         ; loop always: the global zone
2b00207f 11000cfe 35000000                       ; keys 32-127, pan -500, sample 0, which was 1
00000000                                         ; terminal
73686472 5c000000                                ; shdr
62656c6c 20520000 00000000 00000000 00000000     ; bell R
00000000 0a000000 02000000 08000000              ; points 0 to 10, loop 2 to 8: all 86 less
22560000 3cfd                                    ; 22 050 Hz, key 60, -3 cents
00000100                                         ; no link, mono: the left half is gone
454f5300 00000000 00000000 00000000 00000000     ; EOS
00000000 00000000 00000000 00000000 00000000 00000000 0000
`;

test('a small bank, byte by byte (SoundFont 2.04, sections 4 to 7)', async () => {
  const { bytes } = await trimPlan(plan, keeping([3], [2], [0, 1]));
  expect(hex(bytes)).toBe(golden.replaceAll(/;.*/g, '').replaceAll(/\s/g, ''));
});
