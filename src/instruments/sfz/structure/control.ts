import type { Opcode } from '../text/document.ts';
import { leadingNumber } from '../text/numbers.ts';
import { withSlashes } from '../text/paths.ts';

/** What `<control>` headers say, as it holds for the regions behind them. */
export interface Control {
  /** In front of the names of samples; a new `<control>` starts without one. */
  readonly defaultPath: string;
  /** The same as by a reader that keeps it until another one is given. */
  readonly keptPath: string;
  /** Semitones added to keys: `note_offset` and twelve times `octave_offset`. */
  readonly noteOffset: number;
  /** Semitones added to the keys of switches on top. */
  readonly switchOffset: number;
}

type Offset = 'note_offset' | 'octave_offset' | 'sw_note_offset' | 'sw_octave_offset';

/** How far each may go (the open SFZ documentation, opcode pages). */
const reach: Readonly<Record<Offset, number>> = {
  note_offset: 127,
  octave_offset: 10,
  sw_note_offset: 127,
  sw_octave_offset: 10,
};

const isOffset = (name: string): name is Offset => Object.hasOwn(reach, name);

const controllerOpcode = /^set_(hd|real)?cc(\d+)$/u;

/** The state of `<control>` while a document is gone through. */
export class ControlState {
  /** Initial values of controllers. */
  readonly initial = new Map<number, number>();
  /** The other step beside an initial value that was written between two. */
  readonly otherInitial = new Map<number, number>();
  readonly #offsets: Record<Offset, number> = {
    note_offset: 0,
    octave_offset: 0,
    sw_note_offset: 0,
    sw_octave_offset: 0,
  };
  #control: Control = { defaultPath: '', keptPath: '', noteOffset: 0, switchOffset: 0 };

  get now(): Control {
    return this.#control;
  }

  /** Takes the opcodes of a `<control>`; what it does not name stays, but for the path. */
  take(opcodes: readonly Opcode[]): void {
    let path: string | null = null;
    for (const { name, value } of opcodes) {
      if (name === 'default_path') path = withSlashes(value);
      else if (isOffset(name)) this.#shift(name, leadingNumber(value));
      else this.#setController(name, value);
    }
    const offset = this.#offsets;
    this.#control = {
      defaultPath: path ?? '',
      keptPath: path ?? this.#control.keptPath,
      noteOffset: offset.note_offset + 12 * offset.octave_offset,
      switchOffset: offset.sw_note_offset + 12 * offset.sw_octave_offset,
    };
  }

  #shift(name: Offset, value: number | null): void {
    if (value === null) return;
    const most = reach[name];
    this.#offsets[name] = Math.trunc(Math.min(Math.max(value, -most), most)) + 0;
  }

  #setController(name: string, text: string): void {
    const [, fine, number] = controllerOpcode.exec(name) ?? [];
    const value = leadingNumber(text);
    if (number === undefined || value === null) return;
    const steps = fine === undefined ? Math.trunc(value) : value * 127;
    const [below, nearest, above] = [Math.floor, Math.round, Math.ceil].map((whole) =>
      heldTo127(whole(steps)),
    ) as [number, number, number];
    this.initial.set(Number(number), nearest);
    const other = nearest === below ? above : below;
    if (other === nearest) this.otherInitial.delete(Number(number));
    else this.otherInitial.set(Number(number), other);
  }
}

const heldTo127 = (value: number): number => Math.min(Math.max(value, 0), 127) + 0;
