const example = <Of extends string>(lines: Readonly<Record<Of, string>>): typeof lines => lines;

/** Lines of a template that may be pasted, as hints show them: each is whole on its own. */
export const examples = example({
  cues: 'cues: cues/**/*.mid',
  reel: 'reel: [1m1, 1m2, 2m1]',
  split: 'split: markers',
  machine: 'machines: { a: { memory: 64 GiB, reserve: 12 GiB } }',
  whole: 'players: { p: { loads: whole, shares: machine, unloads: sample } }',
  streamed:
    'players: { p: { loads: streamed, head: 60 KiB, shares: machine, unloads: articulation } }',
  overhead:
    'players: { p: { loads: whole, per-zone: 200 B, per-copy: 12 MiB, shares: copy, unloads: layer } }',
  width: 'players: { p: { loads: whole, width: 24 bit, shares: machine, unloads: instrument } }',
  fitted: 'players: { p: { loads: whole, factor: 1.04, shares: machine, unloads: sample } }',
  loading:
    'players: { p: { loads: whole, load-rate: 300 MB/s, shares: machine, unloads: sample } }',
  defaults: 'defaults: { player: p, machine: a }',
  names: 'names: { leg: legato, sus: sustain }',
  bank: 'instruments: { celesta: { file: banks/keys.sf2, preset: "0:8" } }',
  table: 'instruments: { harp: { zones: tables/harp.csv, middle-c: C4 } }',
  outline: 'instruments: { horns: { outline: outlines/horns.yaml } }',
  microphones:
    'instruments: { horns: { outline: outlines/horns.yaml, microphones: [close, tree] } }',
  assigned: 'instruments: { celesta: { file: banks/keys.sf2, machine: a, player: p } }',
  settled: 'instruments: { celesta: { file: banks/keys.sf2, settle: { order: plain } } }',
  measured:
    'instruments: { celesta: { file: banks/keys.sf2, measured: { empty: 0.6 GiB, full: 3.9 GiB } } }',
  rule: 'routes: [ { track: "Hn*", instrument: horns } ]',
  ignored: 'routes: [ { track: "*click*", ignore: true } ]',
  fixed: 'routes: [ { track: "Vc {art}", instrument: low-strings, articulation: "{art}" } ]',
  joined: 'routes: [ { join: ["Cel", "Cel switches"], instrument: celesta } ]',
  chosen: 'routes: [ { track: "Hn*", cue: "1m*", port: 1, channel: 10, instrument: horns } ]',
  changed:
    'routes: [ { track: "Tuba*", instrument: tuba, transpose: -12, velocity: 0.9, controllers: { 11: 1 } } ]',
  printed: 'routes: [ { track: "Pad print*", instrument: pads, printed: true } ]',
  tracks: 'tracks: tracks.csv',
  columns: 'columns: { track: "Track name", instrument: "Plays" }',
  slack: 'slack: 60 ms',
  settle: 'settle: { start-state: plain, smoothing: accept }',
  headroom: 'headroom: { keys: 2, velocity: 8, controller: 8 }',
  pin: 'pins: [ { instrument: horns, articulation: sustain, keys: "C2-C4", velocities: "1-64" } ]',
});
