/**
 * An SFZ of 20 000 regions: ten articulations by keyswitch on 25 key ranges. Every second one is held:
 * five layers that CC1 fades into each other, eight round robins, and as many samples for the release.
 * The others are struck: ten velocity layers, eight round robins. Made up, and the same every time.
 */
export const articulations = 10;
export const firstKey = 24;
const ranges = 25;
const robins = 8;

const heldRegions = (sample) => {
  const lines = [];
  for (let layer = 0; layer < 5; layer += 1) {
    const [low, high] = [layer * 26 - 8, layer * 26 + 22];
    const fade = [
      ...(layer > 0 ? [`xfin_locc1=${low} xfin_hicc1=${low + 8}`] : []),
      ...(layer < 4 ? [`xfout_locc1=${high - 4} xfout_hicc1=${high + 4}`] : []),
    ].join(' ');
    for (let robin = 1; robin <= robins; robin += 1) {
      const both = `seq_length=${robins} seq_position=${robin} ${fade}`;
      lines.push(`<region> sample=${sample} ${both}`);
      lines.push(`<region> sample=${sample} trigger=release rt_decay=6 ${both}`);
    }
  }
  return lines;
};

const struckRegions = (sample) => {
  const lines = [];
  for (let layer = 0; layer < 10; layer += 1) {
    const velocities = `lovel=${layer * 13} hivel=${Math.min(127, layer * 13 + 12)}`;
    for (let robin = 1; robin <= robins; robin += 1) {
      lines.push(
        `<region> sample=${sample} ${velocities} seq_length=${robins} seq_position=${robin}`,
      );
    }
  }
  return lines;
};

/** The text, and the paths of the 250 samples that its regions share. */
export const largeSfz = () => {
  const lines = ['// made by the bench', '<global> ampeg_release=0.8 sw_lokey=0 sw_hikey=11'];
  const samples = [];
  for (let one = 0; one < articulations; one += 1) {
    lines.push(`<master> sw_last=${one} sw_label=Kind ${one}${one === 0 ? ' sw_default=0' : ''}`);
    for (let range = 0; range < ranges; range += 1) {
      const key = firstKey + range * 3;
      const sample = `kind-${one}-key-${key}.wav`;
      samples.push(sample);
      lines.push(`<group> lokey=${key} hikey=${key + 2} pitch_keycenter=${key + 1}`);
      lines.push(...(one % 2 === 0 ? heldRegions : struckRegions)(sample));
    }
  }
  return { text: `${lines.join('\n')}\n`, samples };
};

/** A WAV of one frame of silence, 16-bit mono. */
export const tinyWav = () => {
  const bytes = Buffer.alloc(46);
  bytes.write('RIFF\x26\0\0\0WAVEfmt \x10\0\0\0\x01\0\x01\0', 0, 'latin1');
  bytes.writeUInt32LE(48_000, 24);
  bytes.writeUInt32LE(96_000, 28);
  bytes.writeUInt16LE(2, 32);
  bytes.writeUInt16LE(16, 34);
  bytes.write('data\x02\0\0\0', 36, 'latin1');
  return bytes;
};
