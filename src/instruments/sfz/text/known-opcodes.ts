/**
 * Opcodes of the open SFZ documentation by what they begin with; numbers in names stand for any. It
 * is only for saying which opcodes of a file mean nothing to this tool: none of those below is asked
 * here what it does.
 */
const families: readonly RegExp[] = [
  // Keys, velocities, conditions and switches.
  /^(?:lo|hi)?key$|^(?:lo|hi)vel$|^(?:lo|hi)chan(?:aft)?$|^(?:lo|hi)(?:bend|prog|bpm|rand|timer|polyaft)$/u,
  /^(?:on_|stop_|reverse_)?(?:lo|hi)(?:hd)?cc\d+$|^seq_(?:length|position)$|^trigger$/u,
  /^sw_(?:lokey|hikey|last|lolast|hilast|down|up|previous|default|vel|label|trigger|note_offset|octave_offset)$/u,
  /^(?:sustain|sostenuto)_(?:sw|cc|lo)$|^rt_(?:dead|decay\d*(?:_time)?)$/u,
  /^(?:group|off_by|off_mode|off_time|off_curve|off_shape)$|^(?:note_)?polyphony(?:_group|_stealing)?$|^note_selfmask$/u,
  // Samples.
  /^sample(?:_.*)?$|^(?:offset|end|count|delay|loop|direction|start|stop|sync)(?:_.*)?$|^loop.*$/u,
  /^(?:load_|hint_|oscillator|waveguide|md5|script|default_path|note_offset|octave_offset)/u,
  // Sound: amplifier, pitch, filters, envelopes, oscillators, effects.
  /^(?:(?:global|master|group)_)?(?:volume|amplitude|gain|pan|width|position|phase|tune|transpose)/u,
  /^(?:amp|xf|pitch|bend|tune|transpose|fil|cutoff|resonance|eq|lfo|eg|var|effect|bus|fx|reverb|delay|chorus|phaser|comp|gate|dist|bitred|decim|filter|strings|static|apan|tdfir|width|param|internal|dsp|directtomain)/u,
  // Labels and what players show.
  /^(?:label|set|(?:region|group|master|global)_label|(?:region|group|master|global)_name|output|image|curve|name|data|base64data|vendor_specific|key_label|label_key|text)/u,
  /^v\d{3}$|^#/u,
];

/** False for an opcode that no documentation names: it may be misspelt. */
export const isKnownOpcode = (name: string): boolean =>
  families.some((family) => family.test(name));
