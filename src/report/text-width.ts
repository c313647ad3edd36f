/**
 * How many columns of a terminal a text takes: two for East Asian wide characters and emoji, none for
 * marks that combine with the character before. Texts are already printable.
 */
const wide =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{20000}-\u{3fffd}]|\p{Emoji_Presentation}/u;
const combining = /[\p{Mn}\p{Me}]/u;
const plainAscii = /^[\x20-\x7e]*$/;

/** Below this no character is wide and none combines (Unicode 15, the first is U+0300). */
const firstOdd = '\u0300';

const widthOf = (character: string): number =>
  character < firstOdd ? 1 : combining.test(character) ? 0 : wide.test(character) ? 2 : 1;

/** Columns that one line of text takes. */
export const displayWidth = (text: string): number => {
  if (plainAscii.test(text)) return text.length;
  let width = 0;
  for (const character of text) width += widthOf(character);
  return width;
};

/** The longest beginning of `text` that takes at most `width` columns. */
const beginning = (text: string, width: number): string => {
  let left = width;
  let end = 0;
  for (const character of text) {
    left -= widthOf(character);
    if (left < 0) break;
    end += character.length;
  }
  return text.slice(0, end);
};

/** The longest ending of `text` that takes at most `width` columns and does not begin with a mark. */
const ending = (text: string, width: number): string => {
  const characters = [...text];
  let left = width;
  let start = characters.length;
  for (let i = characters.length - 1; i >= 0; i -= 1) {
    const own = widthOf(characters[i] ?? '');
    left -= own;
    if (left < 0) break;
    if (own > 0) start = i;
  }
  return characters.slice(start).join('');
};

/**
 * Cuts a name in the middle, where names of one family differ least: both its beginning and its
 * number stay.
 *
 * @param dots what stands for the part left out
 * @example cutMiddle('Violins 1 legato slow', 13, '…') // 'Violin…o slow'
 */
export const cutMiddle = (text: string, width: number, dots: string): string => {
  if (displayWidth(text) <= width) return text;
  const room = width - displayWidth(dots);
  if (room < 2) return beginning(text, width);
  const tail = ending(text, Math.floor(room / 2)).trimStart();
  return `${beginning(text, room - displayWidth(tail)).trimEnd()}${dots}${tail}`;
};

/** Puts words on lines of at most `width` columns; a longer word has a line of its own. */
export const wrapWords = (words: readonly string[], width: number): readonly string[] => {
  const lines: string[] = [];
  for (const word of words) {
    const last = lines.at(-1);
    if (last !== undefined && displayWidth(last) + 1 + displayWidth(word) <= width) {
      lines[lines.length - 1] = `${last} ${word}`;
    } else lines.push(word);
  }
  return lines;
};
