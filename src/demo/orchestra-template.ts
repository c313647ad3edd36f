import { outlinePlayers, outlineRoutes, outlineSettings } from './outline-template.ts';
import { sfzPlayers, sfzRoutes, sfzSettings } from './sfz-template.ts';

/** The text of the demo's `keepset.yaml`: every kind of setting once, with the reason beside it. */
export const orchestraTemplate = `# Saltmere, the template: a small orchestra on two machines, all of it invented.
# In this folder, "keepset plan" reads this file; it needs nothing else on the command line.

cues: cues            # a folder, a file or a pattern, from this file's folder
middle-c: C4          # what this file calls key 60; reports print the number too

# What each computer has, and what of it the system and the sequencer need. All of the strings and
# brass together are too much for a. What the cues reach is not.
machines:
  a: { memory: 10 GiB, reserve: 3 GiB }
  b: { memory: 12 GiB, reserve: 4 GiB }

# How instruments are loaded, how fast, and what can be let go by itself.
players:
  # Holds the beginning of each sample and reads the rest from disk. Copies of an instrument share
  # what they hold. Lets go of whole articulations.
  streaming:
    loads: streamed
    head: 192 KiB       # of each sample; never more than all of it
    per-zone: 200 B
    per-copy: 12 MiB
    shares: machine
    unloads: articulation
    load-rate: 200 MB/s # many short reads
  # Loads samples whole, and for each copy again. Lets go of single layers.
  loading:
    { loads: whole, per-copy: 4 MiB, shares: copy, unloads: layer, load-rate: 400 MB/s }
  # Old and closed: there is an instrument or there is none.
  sealed: { loads: whole, shares: copy, unloads: instrument, load-rate: 150 MB/s }
  # Can let go of every sample by itself.
  sampler:
    { loads: whole, width: source, shares: machine, unloads: sample, load-rate: 400 MB/s }
${sfzPlayers}${outlinePlayers}
defaults: { player: loading, machine: a }

# Words in the names of tracks, and the articulations they mean.
names: { leg: legato, sus: sustain, stac: staccato, pizz: pizzicato, sord: con sordino }

# The tables say what the manuals and the file listings say; middle-c is that of each table.
instruments:
  high-strings: { zones: tables/high-strings.csv, middle-c: C4, player: streaming }
  low-strings:
    zones: tables/low-strings.csv
    middle-c: C4
    player: streaming
    # What the player's own display showed, with one copy loaded. Its sustain is all that the reel
    # needs, so that reading is the figure.
    measured: { full: 1.1 GiB, sustain: 270 MiB }
  # Three tracks play it, and the copies share: more tracks cost next to nothing here.
  section-strings: { zones: tables/section-strings.csv, middle-c: C4, player: streaming }
  basses: { zones: tables/basses.csv, middle-c: C4 }
  fiddle:
    zones: tables/fiddle.csv
    middle-c: C4
    # Her first note comes before any keyswitch: it may be any articulation that she uses elsewhere.
    # Keep what it takes for each of them, and do not ask again.
    settle: { start-state: accept }
  horns:
    zones: tables/horns.csv
    middle-c: C4
    # Two readings make a line: this player takes a little more than the files say.
    measured: { empty: 24 MiB, full: 1.4 GiB }
  trumpets: { zones: tables/trumpets.csv, middle-c: C4 }         # no cue plays them
  trombones: { zones: tables/trombones.csv, middle-c: C4 }
  tuba: { zones: tables/tuba.csv, middle-c: C4 }

  flutes: { zones: tables/flutes.csv, middle-c: C4, machine: b } # two tracks, two copies, not shared
  oboe: { zones: tables/oboe.csv, middle-c: C4, machine: b }
  harp: { zones: tables/harp.csv, middle-c: C4, machine: b, player: sealed }
  timpani: { zones: tables/timpani.csv, middle-c: C3, machine: b } # written where key 60 is C3
  percussion: { zones: tables/percussion.csv, middle-c: C4, machine: b, player: sampler }
  choir: { zones: tables/choir.csv, middle-c: C4, machine: b }
  pads: { zones: tables/pads.csv, middle-c: C4, machine: b }
  # Single presets of a bank: bank:program, in quotation marks.
  celesta: { file: instruments/harbour.sf2, preset: "0:8", machine: b, player: sampler }
  piano: { file: instruments/harbour.sf2, preset: "0:0", machine: b, player: sampler }
${sfzSettings({ machine: 'b' })}${outlineSettings}
# Tracks that a spreadsheet lists already, with its own headings. Its rows come before the routes.
tracks: tracks.csv
columns: { track: Track name, instrument: Plays }

# Which track plays what. The first rule that matches decides; each track plays a copy of its own.
routes:
  # The name says the articulation: "Str hi leg" plays legato, whatever switches it sends.
  - { track: "Str hi {art}", instrument: high-strings, articulation: "{art}" }
  - { track: "Str lo {art}", instrument: low-strings, articulation: "{art}" }
  - { track: "Str {art}", instrument: section-strings, articulation: "{art}" }
  - { track: "Cb {art}", instrument: basses, articulation: "{art}" }
  # No articulation here: the fiddle's own keyswitches decide.
  - { track: Fiddle, instrument: fiddle }
  # The switches stand in a track of their own, so both tracks drive one copy.
  - { join: ["Hn a4 sus", "Hn switches"], instrument: horns }
  # One track, two instruments, an octave lower and a little softer than the composer's sketch; its
  # expression (11) arrives as the controller that fades their layers (1).
  - track: "Low brass*"
    instrument: [trombones, tuba]
    articulation: sustain
    transpose: -12
    velocity: 0.9
    controllers: { 11: 1 }
  # Never sends a switch, and the flutes have three articulations: all of them stay, in doubt. With
  # "articulation: sustain" here the doubt is gone, and so is what it costs.
  - { track: "Alto fl", instrument: flutes }
  - { track: "Choir {art}", instrument: choir, articulation: "{art}" }
${sfzRoutes}${outlineRoutes}  # Audio already: its price is told, its sounds need not stay.
  - { track: "* print", instrument: pads, printed: true }
  - { track: "*click*", ignore: true }

# Room around what is played, should the mixer ask for a fix: keys to either side, velocity and
# controller steps. None here; pins keep what is named, played or not: one loud stroke.
headroom: { keys: 0, velocity: 0, controller: 0 }
pins:
  - { instrument: timpani, keys: C2-E2, velocities: 109-127 }

# Track delays that the sequencer did not export. With 60 ms, a switch and a note that are so close
# may have been meant in either order.
slack: 0
`;
