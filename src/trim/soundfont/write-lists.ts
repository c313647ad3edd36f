import type { BankFile } from '../../instruments/soundfont/bank-file.ts';
import type { Hydra } from '../../instruments/soundfont/hydra.ts';
import { listNames, type ListName } from '../../instruments/soundfont/lists.ts';
import type { Piece } from '../output-file.ts';
import type { KeptBank } from './kept-bank.ts';
import type { KeptZone } from './kept-zones.ts';
import { chunkPieces, madePiece } from './riff-pieces.ts';
import { writeHeaders } from './write-headers.ts';
import { writeSamples } from './write-samples.ts';
import { writeZones } from './write-zones.ts';

/**
 * The chunks of the `pdta` list: the nine lists of what stays, every index made new.
 *
 * @param shiftAt how far a point of the sound moves to the front
 * @returns also all instrument zones in their new order
 */
export const writeLists = (
  { path, lists }: BankFile,
  hydra: Hydra,
  { presets, instruments, samples }: KeptBank,
  shiftAt: (point: number) => number,
): { readonly pieces: readonly Piece[]; readonly instrumentZones: readonly KeptZone[] } => {
  const newInstrument = new Map(instruments.map(({ index }, i) => [index, i]));
  const newSample = new Map(samples.map((sample, i) => [sample, i]));
  const { presetZones, instrumentZones } = hydra;
  const outer = writeZones(path, presetZones, lists.pmod, presets, newInstrument);
  const inner = writeZones(path, instrumentZones, lists.imod, instruments, newSample);
  const written: Readonly<Record<ListName, Uint8Array>> = {
    phdr: writeHeaders('phdr', lists.phdr, presets, outer.firstBags),
    pbag: outer.bags,
    pmod: outer.modulators,
    pgen: outer.generators,
    inst: writeHeaders('inst', lists.inst, instruments, inner.firstBags),
    ibag: inner.bags,
    imod: inner.modulators,
    igen: inner.generators,
    shdr: writeSamples(lists.shdr, hydra.samples, samples, shiftAt),
  };
  return {
    pieces: listNames.flatMap((name) => chunkPieces(name, [madePiece(written[name])])),
    instrumentZones: inner.zones,
  };
};
