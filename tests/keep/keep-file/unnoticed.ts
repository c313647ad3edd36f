/** Numbers of which the rest of the file says nothing, or no more than how far they may go. */
export const unnoticed: readonly string[] = [
  // What was chosen, and what is said of the cues and of no zone.
  ...['settings.headroom.controller', 'settings.headroom.keys', 'settings.headroom.velocity'],
  ...['settings.slack', 'rare.fewerThan', 'machines.*.budget', 'printed.parts'],
  ...['headroom.zones', 'headroom.bytes', 'pins.*.zones', 'pins.*.bytes'].map(
    (part) => `allowances.${part}`,
  ),
  ...['cues.*.music', 'cues.*.notes', 'cues.*.parts', 'cues.*.seconds', 'cues.*.version'],
  // Where the proof of a zone stands in its cue.
  ...['bar', 'beat', 'key', 'seconds', 'tick', 'track', 'velocity'].flatMap((part) => [
    `instruments.*.kept.*.witnesses.*.${part}`,
    `rare.units.*.witnesses.*.${part}`,
  ]),
  // What is played, where no zone says it too.
  ...['channel', 'signal', 'values.*'].map((part) => `instruments.*.copies.*.chosen.*.${part}`),
  'instruments.*.copies.*.notes',
  ...['keys.*.*', 'velocities.*', 'notes', 'layers.*.velocity.*'].map(
    (part) => `instruments.*.articulations.*.${part}`,
  ),
  // What only the instrument itself can tell.
  ...['kept.*.zone', 'dropped.*.zone', 'presetZones.*', 'bytes.unknownSamples'].map(
    (part) => `instruments.*.${part}`,
  ),
  ...['zones', 'zonesKept'].map((part) => `instruments.*.articulations.*.layers.*.${part}`),
  // What only its sample sizes and the readings of its player can tell.
  ...['kept.*.bytes', 'dropped.*.bytes', 'bytes.readings', 'bytes.residual'].map(
    (part) => `instruments.*.${part}`,
  ),
  ...['full', 'kept'].map((part) => `instruments.*.articulations.*.bytes.${part}`),
  // What was found by planning again without something.
  ...['doubts.*.bytes', 'doubts.*.zones', 'doubtsAll', 'versions.*.bytes', 'versions.*.zones'],
  ...['rare.bytes', 'rare.units.*.bytes', 'rare.units.*.samples'],
  ...['rare.units.*.articulations.*', 'rare.units.*.zones.*'],
  ...['headroom.controller', 'headroom.keys', 'headroom.velocity', 'zones', 'bytes'].map(
    (part) => `headroomCurve.steps.*.${part}`,
  ),
];
