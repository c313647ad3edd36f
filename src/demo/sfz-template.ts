/** How the SFZ instruments are played, in both templates. */
export const sfzPlayers = `\
  # Plays SFZ: holds the head of each sample, and lets go of single regions.
  reader:
    loads: streamed
    head: 32 KiB
    per-zone: 300 B
    shares: machine
    unloads: sample
    load-rate: 200 MB/s
  # Plays SFZ too, from samples that it loads whole, in 32 bits whatever the file has.
  floats: { loads: whole, width: 32 bit, shares: machine, unloads: sample, load-rate: 400 MB/s }
`;

/** The SFZ instruments; `machine` is left to the defaults when it is not given. */
export const sfzSettings = ({ machine }: { readonly machine?: string }): string => {
  const on = machine === undefined ? '' : `, machine: ${machine}`;
  return `\
  # SFZ: the regions, switches and fades stand in the files, and so do the sizes of their samples.
  chamber: { file: instruments/chamber-strings.sfz${on}, player: reader }
  clarinet: { file: instruments/clarinet.sfz${on}, player: floats }
  deck: { file: instruments/deck.sfz${on}, player: floats }
  upright: { file: instruments/upright.sfz${on}, player: reader }
`;
};

/** Their tracks. */
export const sfzRoutes = `\
  # Two tracks, two copies: each has keyswitches and a modulation wheel of its own.
  - { track: "Chamber*", instrument: chamber }
  - { track: "Cl *", instrument: clarinet }
  - { track: Deck perc, instrument: deck }
  - { track: Upright, instrument: upright }
`;

/**
 * The text of the demo's `sfz.yaml`: the SFZ instruments by themselves. They are small, and beside a
 * whole orchestra their doubts would cost next to nothing.
 */
export const sfzTemplate = `# Saltmere, a second template: only the tracks that play SFZ instruments, on a pocket sampler
# that can't hold all of their samples. With so little, it shows what each doubt costs:
#
#   keepset plan --template sfz.yaml
#
# order        a keyswitch of "Chamber" in 1m2 stands on the tick of its notes, behind them
# no-switch    "Chamber low" never presses a keyswitch
# start-state  "Chamber low" begins before its modulation wheel (controller 1) is first moved
# smoothing    the wheel jumps just before a note of it
# tail         and comes down only after its last note is let go
# pedal-held   the "Upright" leaves its pedal down at the end of 2m1
# engine       players differ on a keyswitch without regions ("Chamber" in 2m4), and on whether keys
#              must be held for a transition ("Cl 1" in 1m3)

cues: cues
middle-c: C4

machines:
  pocket: { memory: 8 MiB, reserve: 2 MiB }

players:
${sfzPlayers}
defaults: { machine: pocket }

instruments:
${sfzSettings({})}
routes:
${sfzRoutes}\
  # Whatever else the cues play is not for this machine.
  - { track: "*", ignore: true }
`;
