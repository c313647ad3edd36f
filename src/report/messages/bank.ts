import { formatCount, plural } from '../format.ts';
import { printable } from '../../terms/printable.ts';
import { words, type Wording } from './words.ts';

const copyAgain = 'Copy the bank again from its source.';
const nothingToDo = 'Nothing needs to be done.';

/** Why the low bytes of 24-bit sound do not count (SoundFont 2.04, section 6.2). */
const sm24Reasons: Readonly<Record<string, string>> = {
  version: 'the bank says it is older than version 2.04',
  'no-smpl': 'the 16-bit part is missing',
  size: 'its size does not match the 16-bit part',
};

/** SoundFont banks. */
export const bankWording: Wording<
  | 'bank-not-a-soundfont'
  | 'bank-truncated'
  | 'bank-chunk-missing'
  | 'bank-chunk-unknown'
  | 'bank-record-size'
  | 'bank-index'
  | 'bank-too-large'
  | 'bank-version'
  | 'bank-no-presets'
  | 'bank-preset-repeated'
  | 'bank-preset-empty'
  | 'bank-sample-broken'
  | 'bank-sample-rom'
  | 'bank-sm24-ignored'
  | 'bank-links-broken'
  | 'bank-chunk-order'
  | 'bank-no-instruments'
  | 'bank-bytes-after-end'
  | 'preset-missing'
  | 'programs-ignored'
> = {
  'bank-not-a-soundfont': ({ begins }) =>
    words(
      `This is not a SoundFont bank: it begins with "${printable(begins)}".`,
      'Give an .sf2 file. A compressed or packed bank has to be unpacked first.',
    ),
  'bank-truncated': ({ chunk, promised, present }) =>
    words(
      `The bank ends early: its block "${printable(chunk)}" should hold ${plural(promised, 'byte')} and only ${formatCount(present)} are there.`,
      copyAgain,
    ),
  'bank-chunk-missing': ({ chunk }) =>
    words(`The bank lacks its block "${printable(chunk)}", which it cannot do without.`, copyAgain),
  'bank-chunk-unknown': ({ chunk }) =>
    words(
      `The bank holds a block "${printable(chunk)}" that the SoundFont standard does not know; it was skipped.`,
      `${nothingToDo} Some players may refuse such a bank.`,
    ),
  'bank-record-size': ({ chunk, bytes, record }) =>
    words(
      `The list "${printable(chunk)}" is ${plural(bytes, 'byte')} long, which is no multiple of ${formatCount(record)}; the bank is not sound.`,
      copyAgain,
    ),
  'bank-index': ({ chunk, record, value }) =>
    words(
      `Entry ${formatCount(record)} of the list "${printable(chunk)}" points to ${formatCount(value)}, which is not there; the bank is not sound.`,
      `${copyAgain} If it is the same, open and save it in a bank editor.`,
    ),
  'bank-too-large': ({ chunk, count }) =>
    words(
      `The list "${printable(chunk)}" leads to ${plural(count, 'entry', 'entries')}, more than this tool takes on.`,
      'Split the bank into smaller ones, for example by family.',
    ),
  'bank-version': ({ major, minor }) =>
    words(
      `The bank is of version ${String(major)}.${String(minor).padStart(2, '0')}; only version 2 can be read, as later ones are compressed.`,
      'Save the bank as an .sf2 file of version 2 in a bank editor.',
    ),
  'bank-no-presets': () =>
    words('The bank holds no presets, so nothing in it can be played.', copyAgain),
  'bank-preset-repeated': ({ preset }) =>
    words(
      `Preset ${printable(preset)} has the numbers of one before it. Most players call up the first; what only this one plays is kept in doubt.`,
      'Find out which of the two your player calls up before anything is unloaded.',
    ),
  'bank-preset-empty': ({ preset }) =>
    words(`Preset ${printable(preset)} plays nothing: it has no zones.`, nothingToDo),
  'bank-sample-broken': ({ sample }) =>
    words(
      `Sample ${printable(sample)} has a header that cannot be right; its memory is not counted.`,
      'Compare with the original bank: a part that uses it may be silent there too.',
    ),
  'bank-sample-rom': ({ sample }) =>
    words(
      `Sample ${printable(sample)} is in the memory of a sound card, not in the bank; its memory is not counted.`,
      `${nothingToDo} Without that card it is silent.`,
    ),
  'bank-sm24-ignored': ({ reason }) =>
    words(
      `The bank's 24-bit part is not used (${sm24Reasons[reason] ?? printable(reason)}); its samples count as 16 bits.`,
      'If the player shows more memory than this report, compare with its own figure.',
    ),
  'bank-links-broken': ({ links }) =>
    words(
      `${plural(links, 'stereo sample')} ${links === 1 ? 'does' : 'do'} not lead back from one side to the other; ${links === 1 ? 'it counts' : 'they count'} as single sample${links === 1 ? '' : 's'}.`,
      'Nothing is lost: each side that is reached is kept.',
    ),
  'bank-chunk-order': ({ chunk }) =>
    words(
      `The block "${printable(chunk)}" of the bank stands twice or in the wrong place; the bank is not sound.`,
      copyAgain,
    ),
  'bank-no-instruments': () =>
    words('The bank holds no instruments, so nothing in it can be played.', copyAgain),
  'bank-bytes-after-end': ({ bytes }) =>
    words(`${plural(bytes, 'byte')} behind the end of the bank were skipped.`, nothingToDo),
  'preset-missing': ({ preset, near }) =>
    words(
      `The bank has no preset ${printable(preset)}.`,
      near.length === 0
        ? 'Check the bank and program numbers behind the #.'
        : `Did you mean ${near.map(printable).join(' or ')}?`,
    ),
  'programs-ignored': ({ events }) =>
    words(
      `${plural(events, 'bank or program change')} in the cues ${events === 1 ? 'is' : 'are'} ignored, as one preset was asked for.`,
      'Give the bank without #bank:program if the cues choose their sounds themselves.',
    ),
};
