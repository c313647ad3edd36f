import type { PartNotes } from '../playback/note-usage.ts';
import { percussionChannel, programName } from '../terms/general-midi.ts';
import { keyLabel } from '../terms/key.ts';
import { several, shortened, type Cell, type Several } from './cell.ts';
import type { Look } from './look.ts';

/** Controllers with their lowest and highest value, `CC1 0-96`. */
export const controllersCell = (controllers: PartNotes['controllers']): Cell =>
  several({
    items: controllers.map(({ number, range: [lo, hi] }) => ({
      text: `CC${String(number)} ${lo === hi ? String(lo) : `${String(lo)}-${String(hi)}`}`,
      short: String(number),
    })),
    prefix: 'CC ',
    one: 'controller',
    many: 'controllers',
  });

type Program = PartNotes['programs'][number];

/**
 * A program with its bank, and its General MIDI name where the bank is the first one. Programs count
 * from 0, as in the files.
 */
const programItem = (
  { bankMsb, bankLsb, program }: Program,
  channel: number,
): Several['items'][number] => {
  const bank = bankLsb === 0 ? String(bankMsb) : `${String(bankMsb)}/${String(bankLsb)}`;
  const short = `${bank}:${String(program)}`;
  if (channel === percussionChannel) return { text: `${short} percussion`, short };
  const known = bankMsb === 0 && bankLsb === 0 ? programName(program) : null;
  return { text: known === null ? short : `${short} ${known}`, short };
};

/** The programs a part chooses, in order; a percussion channel that chooses none is named all the same. */
export const programsCell = ({
  programs,
  channel,
}: Pick<PartNotes, 'programs' | 'channel'>): Cell =>
  programs.length === 0 && channel === percussionChannel
    ? shortened(['(percussion)', '(perc.)'])
    : several({
        items: programs.map((program) => programItem(program, channel)),
        one: 'program',
        many: 'programs',
      });

/** Keys that may be switches, with their numbers. */
export const switchesCell = (likelySwitches: readonly number[], { middleC }: Look): Cell =>
  several({
    items: likelySwitches.map((key) => ({ text: keyLabel(key, middleC), short: String(key) })),
    one: 'key',
    many: 'keys',
  });
