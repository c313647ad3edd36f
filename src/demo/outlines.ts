/** An outline as a person has written it. */
export interface DemoOutline {
  /** The file's name without its ending. */
  readonly name: string;
  readonly yaml: string;
}

/** As little as an outline can say: names, switches, ranges, and what the player showed. */
const bassoons = `# Saltmere, an outline: two bassoons, of an invented library whose files can't be read.
# An afternoon's work was not worth it here: the name of each articulation, its switch and its range
# out of the manual, and its size off the player's display. That much is enough to unload by
# articulation.

middle-c: C4

measured: { empty: 14 MiB, full: 512 MiB }

articulations:
  sustain: { switch: C0, keys: A#1-E5, measured: 150 MiB }
  staccato: { switch: C#0, keys: A#1-E5, measured: 72 MiB }
  marcato: { switch: D0, keys: A#1-C5, measured: 118 MiB }
  flutter: { switch: D#0, keys: C2-A#4, measured: 96 MiB }
  runs: { switch: E0, keys: A#1-C5, measured: 132 MiB }
`;

/** Nearly all that an outline can say. */
const soloCello = `# Saltmere, an outline: a solo cello, of an invented library whose manual says nearly everything.

middle-c: C3              # this manual's: its C-1 is key 12

# These hold for all articulations. The template says which microphones are loaded.
rate: 48000
bits: 24
channels: 2
microphones: [close, tree, hall]

# Keys in a row; ~ stands for one that does nothing.
switches: { from: C-1, names: [sustain, ~, legato, spiccato, pizzicato, tremolo] }

articulations:
  sustain:
    keys: C1-A4
    sampled: C1..A4 every 3
    stretch: down         # a recording plays its own key and those below it, to the next one
    layers: { cc1: [0-44, 38-88, 82-127] }
    seconds: 6
    releases: { seconds: 1.2, at: release }
  # The same notes recorded anew, and the way from one to the next for every interval of an octave.
  legato:
    like: sustain
    seconds: 5
    legato: { intervals: 12, seconds: 0.45, overlap: 80 ms, returns: yes }
  spiccato:
    keys: C1-D4
    sampled: C1..D4 every 2   # which of them plays a key between two is not said
    layers: { velocity: [1-44, 45-72, 73-98, 99-127] }
    # Two takes of its own for each key; the other two are those of the recorded keys beside it.
    round-robins: { count: 4, borrow: 2 }
    seconds: 0.7
  pizzicato:
    keys: C1-G4
    sampled: C1..G4 every 3
    layers: { velocity: 3 }   # the manual says three, and not where one ends
    round-robins: 3
    seconds: 1.4
    releases: "?"             # not looked up yet
  tremolo: { like: sustain, seconds: 4 }
`;

/** The outlines of the demo, all invented. */
export const demoOutlines = (): readonly DemoOutline[] => [
  { name: 'bassoons', yaml: bassoons },
  { name: 'solo-cello', yaml: soloCello },
];
