import type { Finding } from '../../../terms/finding.ts';
import { shown } from '../../zone-table/cell-text.ts';
import { fromBase64 } from '../text/base64.ts';
import { ControlState, type Control } from './control.ts';
import { curveOf } from './curves.ts';
import type { Header, Opcode, Place, SfzDocument } from '../text/document.ts';
import { limits } from '../text/limits.ts';
import { keyOf } from '../text/numbers.ts';
import { Remarks } from '../text/remarks.ts';

export type { Control } from './control.ts';

export interface Region {
  /** Number in reading order from 0. */
  readonly number: number;
  /**
   * All opcodes that apply, in the order they apply: global, master, group, region; inside each in
   * reading order. Later ones win.
   */
  readonly opcodes: readonly Opcode[];
  readonly control: Control;
  /** Of its header. */
  readonly place: Place;
}

/** A key that stands for the switch pressed last, before any is. */
export interface DefaultSwitch {
  /** Moved by all offsets that hold where it stands; -1 stays as it is. */
  readonly key: number;
  /** Moved by the offsets of switches alone. */
  readonly unshifted: number;
}

/** What a document says once each region has what it inherits. */
export interface SfzStructure {
  readonly regions: readonly Region[];
  /** Controller number -> initial value 0-127; the last in reading order wins. */
  readonly initial: ReadonlyMap<number, number>;
  /** Where that was written between two steps, the one that it was not rounded to. */
  readonly otherInitial: ReadonlyMap<number, number>;
  /** Every `sw_default` in reading order, whatever the header. */
  readonly defaults: readonly DefaultSwitch[];
  /** Own curves by number: 128 values each. */
  readonly curves: ReadonlyMap<number, readonly number[]>;
  /** The bytes of embedded samples by name. */
  readonly embedded: ReadonlyMap<string, Uint8Array>;
  readonly findings: readonly Finding[];
}

/**
 * Gives each region what it inherits (the open SFZ documentation, "headers"): a `<global>` ends the
 * `<master>` and `<group>` before it, a `<master>` the `<group>`, each takes the place of the one before.
 *
 * @throws {InputError} when regions and what they inherit are more than this tool takes on
 */
export const structureOf = (document: SfzDocument): SfzStructure => {
  const draft = new StructureDraft(document);
  for (const header of document.headers) draft.take(header);
  return draft.structure();
};

const none: readonly Opcode[] = [];

class StructureDraft {
  readonly #regions: Region[] = [];
  readonly #defaults: DefaultSwitch[] = [];
  readonly #curves = new Map<number, readonly number[]>();
  readonly #embedded = new Map<string, Uint8Array>();
  readonly #remarks: Remarks;
  readonly #control = new ControlState();
  #global = none;
  #master = none;
  #group = none;
  #total = 0;

  constructor(document: SfzDocument) {
    this.#remarks = new Remarks(document.files);
  }

  structure(): SfzStructure {
    return {
      regions: this.#regions,
      initial: this.#control.initial,
      otherInitial: this.#control.otherInitial,
      defaults: this.#defaults,
      curves: this.#curves,
      embedded: this.#embedded,
      findings: this.#remarks.findings(),
    };
  }

  take({ name, opcodes, place }: Header): void {
    switch (name) {
      case 'control':
        this.#control.take(opcodes);
        break;
      case 'global':
        this.#global = opcodes;
        this.#master = none;
        this.#group = none;
        break;
      case 'master':
        this.#master = opcodes;
        this.#group = none;
        break;
      case 'group':
        this.#group = opcodes;
        break;
      case 'region':
        this.#addRegion(opcodes, place);
        break;
      case 'curve': {
        const curve = curveOf(opcodes);
        if (curve !== null) this.#curves.set(curve.index, curve.values);
        return;
      }
      case 'sample':
        this.#takeSample(opcodes, place);
        return;
      default:
        return;
    }
    this.#addDefaults(opcodes);
  }

  #addRegion(opcodes: readonly Opcode[], place: Place): void {
    const [global, master, group] = [this.#global, this.#master, this.#group];
    this.#total += global.length + master.length + group.length + opcodes.length;
    if (this.#total > limits.inherited) {
      const args = { what: 'inherited', limit: limits.inherited } as const;
      throw this.#remarks.error('sfz-too-large', place, args);
    }
    this.#regions.push({
      number: this.#regions.length,
      opcodes: global.concat(master, group, opcodes),
      control: this.#control.now,
      place,
    });
  }

  #addDefaults(opcodes: readonly Opcode[]): void {
    const { noteOffset, switchOffset } = this.#control.now;
    for (const { name, value } of opcodes) {
      const key = name === 'sw_default' ? keyOf(value) : null;
      if (key === null) continue;
      const unshifted = key === -1 ? -1 : key + switchOffset;
      this.#defaults.push({ key: key === -1 ? -1 : unshifted + noteOffset, unshifted });
    }
  }

  #takeSample(opcodes: readonly Opcode[], place: Place): void {
    const valueOf = (wanted: string): string | undefined =>
      opcodes.findLast(({ name }) => name === wanted)?.value;
    const name = valueOf('name') ?? '';
    const data = valueOf('base64data');
    const bytes = name === '' || data === undefined ? null : fromBase64(data);
    if (bytes !== null) this.#embedded.set(name, bytes);
    else this.#remarks.add('warning', 'sfz-embedded-broken', place, { sample: shown(name) });
  }
}
