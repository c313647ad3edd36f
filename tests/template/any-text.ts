import fc from 'fast-check';

/**
 * Text of any code units: letters with and without accents, accents alone, Greek, Hangul, blanks,
 * controls, halves of surrogate pairs, and anything else.
 */
export const anyText = (maxLength: number): fc.Arbitrary<string> =>
  fc
    .array(
      fc.oneof(
        fc.integer({ min: 0, max: 0x17f }),
        fc.integer({ min: 0x300, max: 0x3ff }),
        fc.integer({ min: 0x2000, max: 0x202f }),
        fc.integer({ min: 0xac00, max: 0xdfff }),
        fc.integer({ min: 0, max: 0xffff }),
      ),
      { maxLength },
    )
    .map((units) => String.fromCharCode(...units));
