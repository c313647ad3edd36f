import type { RegionOpcodes } from './region-opcodes.ts';

/**
 * Whether a region's start can stop other voices: another region names its group in `off_by`, or its
 * voices are limited in number (documentation, `off_by`, `polyphony`, `note_polyphony`).
 */
export class Chokes {
  readonly #named = new Set<number>();

  constructor(regions: readonly RegionOpcodes[]) {
    for (const region of regions) {
      const group = region.whole('off_by');
      if (group !== null) this.#named.add(group);
    }
  }

  /** Some region lets itself be stopped by a group. */
  get any(): boolean {
    return this.#named.size > 0;
  }

  has(region: RegionOpcodes): boolean {
    return this.names(region) || region.has('polyphony') || region.has('note_polyphony');
  }

  /** The region's group stops another. */
  names(region: RegionOpcodes): boolean {
    const group = region.whole('group') ?? 0;
    return group !== 0 && this.#named.has(group);
  }
}

/** True when a region makes no sound of its own: no last frame, or silence for a sample. */
export const isSilent = (opcodes: RegionOpcodes, plays: 'sound' | 'silence'): boolean => {
  const end = opcodes.whole('end');
  return plays === 'silence' || end === -1 || end === 0;
};
