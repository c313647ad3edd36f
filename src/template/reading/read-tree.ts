import type { Files } from '../../terms/files.ts';
import type { Faults } from '../../notation/document/faults.ts';
import { defaultMachine } from '../machine.ts';
import { templateVocabulary } from './keys.ts';
import { readInstruments } from './read-instruments.ts';
import { readMachines } from './read-machines.ts';
import { readPins } from './read-pins.ts';
import { readPlayers } from './read-players.ts';
import { readRules } from './read-rules.ts';
import { readSettings } from './read-settings.ts';
import { readTrackTable } from './read-track-table.ts';
import { Reader } from '../../notation/document/reader.ts';
import type { Template } from '../template.ts';
import { unknownKeys } from '../../notation/document/unknown-keys.ts';
import { parseYaml } from '../../notation/yaml/parse-yaml.ts';

/** A template without its path and digest, and the bytes of the table that belongs to it. */
export interface ReadTree {
  readonly template: Omit<Template, 'path' | 'sha256'>;
  readonly table: readonly Uint8Array[];
}

/**
 * Reads and checks all of a template.
 *
 * @returns what it says; where `faults` has found some, of little worth; null where it says nothing
 */
export const readTree = async (
  bytes: Uint8Array,
  files: Files,
  faults: Faults,
): Promise<ReadTree | null> => {
  const root = parseYaml(bytes, faults);
  if (root?.kind !== 'map') {
    const isEmpty = root?.kind === 'scalar' && root.value === null;
    if (isEmpty) faults.add(null, 'yaml-empty', () => ({ document: 'template' }));
    else if (root !== null) {
      const shape = root.kind === 'list' ? 'list' : 'text';
      faults.add(root.at, 'yaml-not-keys', () => ({ document: 'template', shape }));
    }
    return null;
  }
  const reader = new Reader(root, faults, templateVocabulary);
  unknownKeys(reader, root, []);
  const settings = readSettings(reader);
  const machines = readMachines(reader);
  const instruments = readInstruments(reader, machines, readPlayers(reader));
  const ids = new Set(reader.namedEntries('instruments').map(({ key }) => key));
  const table = await readTrackTable(reader, files, ids);
  const routes = [...table.routes, ...readRules(reader, ids)];
  const pins = readPins(reader, settings.middleC, ids);
  return {
    template: {
      ...settings,
      machines: machines.size === 0 ? [defaultMachine] : [...machines.values()],
      instruments,
      routes,
      pins,
      findings: faults.notes,
    },
    table: table.bytes,
  };
};
