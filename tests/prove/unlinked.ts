import { leaves } from '../demo/read-bank.ts';

/** A record of `shdr`, and where its link and its type lie within (SoundFont 2.04, section 7.10). */
const record = { bytes: 46, link: 42, type: 44 } as const;

const mono = 1;

/** Bit of the types whose points are in a ROM. */
const rom = 0x8000;

/**
 * A copy of a bank in which no sample is the side of another: all are mono and lead nowhere. Zones,
 * generators and sound stay as they are.
 *
 * TiMidity++ 2.14.0 leaves right samples out when it looks for the zones that take a note. For each left
 * one that it finds it plays the first zone of the preset with the right sample that belongs to it,
 * whatever keys and velocities that zone takes, and by the generators of that zone (measured). Where
 * presets have several zones for the same stereo sample, one for each range of velocities, the right
 * side so comes from a zone that no note reaches, and a smaller bank does not have it. By the zones
 * themselves (section 9.4) both sides are found alike; without links TiMidity++ does so too.
 */
export const unlinked = (bank: Uint8Array): Uint8Array => {
  const { at, size } = leaves(bank).chunks.get('shdr')!;
  const copy = Uint8Array.from(bank);
  const view = new DataView(copy.buffer);
  // The last record only ends the list.
  for (let one = at; one < at + size - record.bytes; one += record.bytes) {
    const type = view.getUint16(one + record.type, true);
    view.setUint16(one + record.link, 0, true);
    view.setUint16(one + record.type, (type & rom) | mono, true);
  }
  return copy;
};
