import { doubtSet, plain } from '../../terms/doubt.ts';
import type { Files } from '../../terms/files.ts';
import type { Instrument } from '../instrument.ts';
import { fileName } from '../file-name.ts';
import { standardHold, type Program } from '../program.ts';
import { bankArticulations } from './articulations.ts';
import { readBankFile, type BankFile } from './bank-file.ts';
import { readHydra } from './hydra.ts';
import { listNames } from './lists.ts';
import { patchTests } from './patch-tests.ts';
import { findPreset, isRepeated, usablePresets, type PresetNumber } from './presets.ts';
import { RangeReader } from './range-reader.ts';
import { checkRom, readSamples } from './samples.ts';
import { selectAll, selectUsed } from './selection.ts';
import { compileStarts } from './starts.ts';
import { readZones } from './zones.ts';

/**
 * Reads a SoundFont bank, or one preset of it, as an instrument. Chunk headers, the version and the
 * nine lists are read; the sound is not, at any size.
 *
 * A bank has all instrument zones of the file that lead to a sample, those no preset uses included;
 * one preset has the zones of the instruments it leads to, and the samples they use.
 *
 * @param preset null for the whole bank
 * @param digest sha256 in hex of the parts in their order. The parts are the version, the sizes of
 *   the sound and the lists: a bank of which only the sound was changed, in place, has the same digest
 * @throws {InputError} when the bank is not structurally sound (SoundFont 2.04, section 10.1), too
 *   large, or has no such preset
 */
export const readSoundFont = async (
  files: Files,
  path: string,
  preset: PresetNumber | null,
  digest: (parts: readonly Uint8Array[]) => string,
): Promise<Instrument> => {
  const file = await readBankFile(await RangeReader.open(files, path));
  const hydra = readHydra(path, file.lists);
  checkRom(file, hydra.samples);
  const instruments = hydra.instruments.map(({ zones }) =>
    readZones(path, hydra.instrumentZones, zones, hydra.samples.length),
  );
  const zonesOf = new Map(
    hydra.presets.map((record) => {
      const set = readZones(path, hydra.presetZones, record.zones, instruments.length);
      return [record, set];
    }),
  );
  const usable = usablePresets(path, hydra.presets);
  const presets = preset === null ? usable.presets : [findPreset(path, usable.presets, preset)];
  const sets = presets.map((record) => zonesOf.get(record)!);

  const selection =
    preset === null
      ? selectAll(instruments, hydra.samples.length)
      : selectUsed(sets[0]!, instruments);
  const { samples, findings } = readSamples(file, hydra.samples, selection.samples);
  const zoneOf = new Map(selection.zones.map(({ id }, index) => [id, index]));
  const { starts, presetZones } = compileStarts(path, sets, instruments, zoneOf, (preset) =>
    isRepeated(presets, preset) ? doubtSet('engine') : plain,
  );
  const suffix = preset === null ? '' : `#${String(preset.bank)}:${String(preset.program)}`;
  const common = {
    holds: [standardHold],
    starts,
    retriggers: true,
    zones: selection.zones.length,
  } as const;
  return {
    id: fileName(path) + suffix,
    source: path + suffix,
    sha256: digest(digestParts(file)),
    playedAs: preset === null ? 'bank' : 'single',
    zones: selection.zones,
    samples,
    articulations: bankArticulations(presets, starts, preset === null),
    program: preset === null ? { ...common, ...patchGates(presets) } : { ...common, ...noGates },
    presetZones,
    findings: [...file.findings, ...(preset === null ? usable.findings : []), ...findings],
  };
};

type Gates = Pick<Program, 'scope' | 'signals' | 'gates' | 'articulations'>;

/** One gate for each preset, on the patch that each channel has chosen. */
const patchGates = (presets: readonly PresetNumber[]): Gates => ({
  scope: 'channel',
  signals: [{ kind: 'patch' }],
  gates: patchTests(presets).map((tests) => [{ signal: 0, tests }]),
  articulations: presets.length,
});

/** One preset by itself: always open, whatever bank and program a track asks for. */
const noGates: Gates = { scope: 'copy', signals: [], gates: [[]], articulations: 1 };

/** What tells one bank from another, each part led by its name and size. */
const digestParts = ({ version, smpl, sm24, lists }: BankFile): readonly Uint8Array[] => {
  const text = new TextEncoder();
  const { major, minor } = version;
  const sizes = `${String(smpl?.length ?? null)} ${String(sm24?.length ?? null)}`;
  return [
    text.encode(`sfbk ${String(major)}.${String(minor)} ${sizes}\n`),
    ...listNames.flatMap((name) => {
      const { bytes } = lists[name];
      return [text.encode(`${name} ${String(bytes.length)}\n`), bytes];
    }),
  ];
};
