import type { Region, SfzStructure } from '../structure/regions.ts';
import { RegionOpcodes } from './region-opcodes.ts';

/** A region with its opcodes by name. */
export interface NamedRegion {
  readonly region: Region;
  readonly opcodes: RegionOpcodes;
}

export const namedRegions = ({ regions }: SfzStructure): readonly NamedRegion[] =>
  regions.map((region) => ({ region, opcodes: new RegionOpcodes(region.opcodes) }));
