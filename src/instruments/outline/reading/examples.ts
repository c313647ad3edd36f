const example = <Of extends string>(lines: Readonly<Record<Of, string>>): typeof lines => lines;

/** Lines of an outline that may be pasted, as hints show them: each is whole on its own. */
export const examples = example({
  middleC: 'middle-c: C4',
  rate: 'rate: 48000',
  bits: 'bits: 24',
  channels: 'channels: 2',
  seconds: 'seconds: 6',
  microphones: 'microphones: [close, tree]',
  switches: 'switches: { from: C-1, names: [sustain, tremolo, staccato] }',
  measured: 'measured: { empty: 0.6 GiB, full: 3.9 GiB }',
  name: 'articulations: { sustain: { keys: G2-E5, switch: C0 } }',
  like: 'articulations: { sustain: { keys: G2-E5 }, tremolo: { like: sustain, switch: D0 } }',
  sampled: 'articulations: { sustain: { sampled: C2..C6 every 3, stretch: down } }',
  layers: 'articulations: { sustain: { layers: { velocity: [1-40, 41-90, 91-127] } } }',
  roundRobins: 'articulations: { staccato: { round-robins: { count: 4, borrow: 2 } } }',
  sized: 'articulations: { sustain: { seconds: 8, rate: 48000, bits: 24, channels: 2 } }',
  shown: 'articulations: { sustain: { measured: 420 MiB } }',
  placed: 'articulations: { sustain: { microphones: [close, tree] } }',
  when: 'articulations: { accent: { when: { velocity: 100-127, controllers: { 1: 64-127 }, pressure: 1-127, held: 2-4 } } }',
  releases:
    'articulations: { sustain: { releases: { seconds: 1.2, at: release, round-robins: 2, layers: 3, measured: 90 MiB } } }',
  legato:
    'articulations: { legato: { legato: { intervals: 12, seconds: 0.6, overlap: 80 ms, returns: yes, layers: 2, round-robins: 2, measured: 300 MiB } } }',
});
