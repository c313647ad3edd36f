/**
 * Which preset each channel asks for, as one kind of synthesiser hears it.
 *
 * A reader is a synthesiser's bank mode at power-on, and the device numbers it answers to. The plain
 * reader is (gs, standard); each of the other nineteen stands under the doubt `engine`.
 */
import { doubtBits, plain } from './doubts.ts';
import { allChannels, type OracleEvent } from './soundfont-events.ts';
import { readSysex } from './sysex.ts';

/** `gm2` is a mode at power-on only: no message leads to it. */
export type BankMode = 'gs' | 'gm' | 'xg' | 'gm2' | 'mma';

/** Device numbers: standard = 0x10 and 0x7F, zero = 0x00 and 0x7F. */
export type Obeyed = 'standard' | 'zero' | 'any' | 'none';

export interface Reader {
  readonly mode: BankMode;
  readonly obeyed: Obeyed;
  readonly doubts: number;
}

export const plainReader: Reader = { mode: 'gs', obeyed: 'standard', doubts: plain };

export const otherReaders: readonly Reader[] = (['gs', 'gm', 'xg', 'gm2', 'mma'] as const)
  .flatMap((mode) =>
    (['standard', 'zero', 'any', 'none'] as const).map((obeyed) => ({
      mode,
      obeyed,
      doubts: doubtBits.engine,
    })),
  )
  .filter(({ mode, obeyed }) => mode !== 'gs' || obeyed !== 'standard');

/** What a channel plays: latched at a program change, whatever happens to the bank later. */
export interface Patch {
  readonly bank: number;
  readonly program: number;
}

const drumBank = 128;

/** What a channel is like at one moment. */
export interface ChannelState {
  readonly drum: boolean;
  /** The bank that the bank selects have chosen; it waits while the channel is a drum channel. */
  readonly storedBank: number;
  /** Last values of controllers 0 and 32, for the mode that adds them up. */
  readonly select: { readonly high: number; readonly low: number };
}

/** What one reader made of the events. */
export interface History {
  readonly reader: Reader;
  /** `states[i][channel]`: after event i. */
  readonly states: readonly (readonly ChannelState[])[];
  /** `patches[i][channel]`: the patch that event i set on that channel, if it set one. */
  readonly patches: readonly ReadonlyMap<number, Patch>[];
  /** `resets[i]`: event i was a system reset, and this reader obeyed it. */
  readonly resets: readonly boolean[];
}

export function powerOnState(channel: number): ChannelState {
  return { drum: channel === 9, storedBank: 0, select: { high: 0, low: 0 } };
}

export function powerOnPatch(channel: number): Patch {
  return { bank: bankInEffect(powerOnState(channel)), program: 0 };
}

/** The bank that a program change would take now. */
export function bankInEffect(state: ChannelState): number {
  return state.drum ? drumBank : state.storedBank;
}

export function followReader(reader: Reader, events: readonly OracleEvent[]): History {
  let mode = reader.mode;
  let channels = allChannels.map(powerOnState);
  const states: ChannelState[][] = [];
  const patches: Map<number, Patch>[] = [];
  const resets: boolean[] = [];

  for (const event of events) {
    const set = new Map<number, Patch>();
    let reset = false;

    if (event.kind === 'controller') {
      channels = channels.map((state, channel) =>
        channel === event.channel ? selectBank(mode, state, event.number, event.value) : state,
      );
    }
    if (event.kind === 'program') {
      const state = channels[event.channel] ?? powerOnState(event.channel);
      set.set(event.channel, { bank: bankInEffect(state), program: event.program });
    }
    if (event.kind === 'sysex') {
      const meaning = readSysex(event.data);
      if (meaning !== null && 'device' in meaning && obeys(reader.obeyed, meaning.device)) {
        if (meaning.what !== 'rhythm-part') {
          mode = modeAfter[meaning.what];
          reset = true;
          channels = allChannels.map(powerOnState);
          for (const channel of allChannels) set.set(channel, powerOnPatch(channel));
        } else if (mode === 'gs') {
          channels = channels.map((state, channel) =>
            channel === meaning.channel ? { ...state, drum: meaning.drum } : state,
          );
          const state = channels[meaning.channel] ?? powerOnState(meaning.channel);
          set.set(meaning.channel, { bank: bankInEffect(state), program: 0 });
        }
      }
    }

    states.push(channels);
    patches.push(set);
    resets.push(reset);
  }
  return { reader, states, patches, resets };
}

const modeAfter = { 'gm-on': 'gm', 'gm-off': 'gs', 'gs-reset': 'gs', 'xg-on': 'xg' } as const;

function obeys(obeyed: Obeyed, device: number): boolean {
  switch (obeyed) {
    case 'standard':
      return device === 0x10 || device === 0x7f;
    case 'zero':
      return device === 0x00 || device === 0x7f;
    case 'any':
      return true;
    case 'none':
      return false;
  }
}

/** Bank selects, and nothing else: any other controller leaves the channel as it is. */
function selectBank(
  mode: BankMode,
  state: ChannelState,
  number: number,
  value: number,
): ChannelState {
  if ((mode === 'xg' || mode === 'gm2') && number === 0) {
    return { ...state, drum: isDrumSwitch(mode, value) };
  }
  if (state.drum) return state;
  if ((mode === 'xg' || mode === 'gm2') && number === 32) return { ...state, storedBank: value };
  if (mode === 'gs' && number === 0) return { ...state, storedBank: value };
  if (mode === 'mma' && (number === 0 || number === 32)) {
    const select =
      number === 0 ? { ...state.select, high: value } : { ...state.select, low: value };
    return { ...state, select, storedBank: select.high * 128 + select.low };
  }
  return state;
}

/**
 * Whether controller 0 makes a drum channel; any other value makes a melodic one. In mode xg every
 * value from 120 does (measured with FluidSynth 2.3.1); General MIDI 2 has 121 for melodic banks.
 */
function isDrumSwitch(mode: 'xg' | 'gm2', value: number): boolean {
  return mode === 'xg' ? value >= 120 : value === 120 || value === 126 || value === 127;
}
