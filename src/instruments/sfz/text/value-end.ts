import {
  endOfBlanks,
  endOfName,
  endOfOpcodeName,
  equalsSign,
  hash,
  isBlank,
  isLineEnd,
  lessThan,
  startsComment,
} from './characters.ts';

/**
 * Where the value of an opcode ends, blanks at its end left out. Values hold blanks, `=` and `#`, as
 * file names do: only a line end, a comment, a header, or blanks in front of the next opcode or
 * directive end them. Takes linear time.
 *
 * @param from where the value starts
 */
export const endOfValue = (text: string, from: number): number => {
  let end = from;
  for (let at = from; at < text.length;) {
    const code = text.charCodeAt(at);
    if (isBlank(code)) {
      at = endOfBlanks(text, at);
      if (startsOpcode(text, at) || startsDirective(text, at)) break;
    } else if (isLineEnd(code) || code === lessThan || startsComment(text, at)) break;
    else {
      at += 1;
      end = at;
    }
  }
  return end;
};

/**
 * Where the data of an embedded sample ends, white space at its end left out: it runs over lines up
 * to the next header or directive, and nothing in it is a comment or a variable.
 */
export const endOfData = (text: string, from: number): number => {
  let end = from;
  for (let at = from; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === lessThan || code === hash) break;
    if (!isBlank(code) && !isLineEnd(code)) end = at + 1;
  }
  return end;
};

const startsOpcode = (text: string, at: number): boolean => {
  const end = endOfOpcodeName(text, at);
  return end > at && text.charCodeAt(end) === equalsSign;
};

const startsDirective = (text: string, at: number): boolean => {
  if (text.charCodeAt(at) !== hash) return false;
  const word = text.slice(at + 1, Math.min(endOfName(text, at + 1), at + 9));
  return word === 'define' || word === 'include';
};
