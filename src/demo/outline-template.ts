/** How the solo cello is played. */
export const outlinePlayers = `\
  # Loads a sample when it is first played, and keeps it from then on: starts empty, and after
  # everything that the cues need has been played once, it holds just that.
  on-demand:
    { loads: whole, per-copy: 6 MiB, shares: copy, unloads: sample, load-rate: 300 MB/s }
`;

/** Libraries whose files can't be read. */
export const outlineSettings = `\
  # Outlines: what the manuals of two closed libraries say. One says as little as can be, the other
  # nearly everything; of its three microphones two are loaded.
  bassoons: { outline: outlines/bassoons.yaml, machine: b, player: streaming }
  solo-cello:
    outline: outlines/solo-cello.yaml
    microphones: [close, tree]
    machine: b
    player: on-demand
`;

/** Their tracks. */
export const outlineRoutes = `\
  # The keyswitches of these two stand among their notes.
  - { track: "Bsn *", instrument: bassoons }
  - { track: "Solo vc", instrument: solo-cello }
`;
