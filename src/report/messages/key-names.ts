/** Where the name of a key may stand. */
const ofKeys: ReadonlySet<string> = new Set([
  ...['articulation', 'key', 'key-ranges', 'keys-of-instrument', 'sampled', 'switch'],
]);

/** H with an octave: what B is called in German. */
const germanB = /(?<!\p{L})h ?[#♯b♭]? ?-?\d/iu;

/**
 * What to say of a name that keys have elsewhere.
 *
 * @param expected what belongs in its place
 * @returns one sentence; none where nothing looks like such a name
 */
export const otherKeyName = (expected: string, found: string): readonly string[] =>
  ofKeys.has(expected) && germanB.test(found)
    ? ['Key names go from A to G: the German H is B here, and the German B is Bb.']
    : [];
