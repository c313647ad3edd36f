import { placesIn, type TextPlace } from '../../../notation/places.ts';
import { shown } from '../../zone-table/cell-text.ts';
import {
  dollar,
  endOfBlanks,
  endOfCode,
  endOfLine,
  endOfName,
  endOfOpcodeName,
  endOfWord,
  equalsSign,
  hash,
  isBlank,
  isLineEnd,
  lessThan,
  slash,
  startsComment,
} from './characters.ts';
import type { Place } from './document.ts';
import type { Draft } from './draft.ts';
import { limits } from './limits.ts';
import { endOfData, endOfValue } from './value-end.ts';

/** An `#include` that the reading has come to. */
export interface Include {
  /** As written, variables expanded. */
  readonly path: string;
  /** The whole directive. */
  readonly place: Place;
}

/** The opcode that holds an embedded sample as text. */
const dataOpcode = 'base64data';

/** Reads one file for the draft of a document, from its start to its end. Takes linear time. */
export class FileScanner {
  readonly #file: number;
  readonly #inclusion: number;
  readonly #text: string;
  readonly #draft: Draft;
  readonly #placeOf: (offset: number) => TextPlace;
  #at = 0;

  /** @param inclusion the number of this reading of the file */
  constructor(file: number, inclusion: number, text: string, draft: Draft) {
    this.#file = file;
    this.#inclusion = inclusion;
    this.#text = text;
    this.#draft = draft;
    this.#placeOf = placesIn(text);
  }

  /**
   * Reads on to the next include, which has its place there, or to the end: null.
   *
   * @throws {InputError} when a comment is left open, or there is too much of something
   */
  next(): Include | null {
    const text = this.#text;
    for (;;) {
      this.#skipBetween();
      if (this.#at >= text.length) return null;
      switch (text.charCodeAt(this.#at)) {
        case lessThan:
          this.#readHeader();
          break;
        case hash: {
          const include = this.#readDirective();
          if (include !== null) return include;
          break;
        }
        case slash:
          this.#skipSlashLine();
          break;
        default:
          this.#readOpcode();
      }
    }
  }

  /** Goes over blanks, line ends and comments. */
  #skipBetween(): void {
    const text = this.#text;
    for (;;) {
      const code = text.charCodeAt(this.#at);
      if (isBlank(code) || isLineEnd(code)) this.#at += 1;
      else if (code !== slash || !startsComment(text, this.#at)) return;
      else if (text.charCodeAt(this.#at + 1) === slash) this.#at = endOfLine(text, this.#at);
      else {
        const close = text.indexOf('*/', this.#at + 2);
        if (close < 0) {
          const place = this.#place(this.#at, this.#at + 2);
          throw this.#draft.remarks.error('sfz-comment-open', place, {});
        }
        this.#at = close + 2;
      }
    }
  }

  #readHeader(): void {
    const start = this.#at;
    const end = endOfName(this.#text, start + 1);
    if (end === start + 1 || this.#text[end] !== '>') {
      this.#skipLine('sfz-line-skipped');
      return;
    }
    this.#at = end + 1;
    const name = this.#text.slice(start + 1, end);
    this.#draft.addHeader(name, this.#place(start, this.#at), this.#inclusion);
  }

  #readOpcode(): void {
    const text = this.#text;
    const start = this.#at;
    const nameEnd = endOfOpcodeName(text, start);
    if (nameEnd === start || text.charCodeAt(nameEnd) !== equalsSign) {
      this.#skipLine('sfz-line-skipped');
      return;
    }
    const ofName = this.#place(start, nameEnd);
    this.#checkLength(nameEnd - start, ofName);
    const name = this.#draft.spelling(text.slice(start, nameEnd), ofName);
    if (name === null) {
      this.#skipLine('sfz-line-skipped');
      return;
    }
    const from = nameEnd + 1;
    const isData = name === dataOpcode;
    const end = isData ? endOfData(text, from) : endOfValue(text, from);
    const place = { ...ofName, end };
    if (!isData) this.#checkLength(end - from, place);
    this.#at = end;
    const value = text.slice(from, end);
    if (!isData && isBlank(value.charCodeAt(0))) {
      this.#draft.remarks.add('warning', 'sfz-blank-value', place, { opcode: shown(name) });
    }
    const expanded = isData ? value : this.#expanded(value, place);
    this.#draft.addOpcode({ name, value: expanded, place, inclusion: this.#inclusion });
  }

  /** Blanks may come to stand at the end where a variable is empty. */
  #expanded(value: string, place: Place): string {
    if (!value.includes('$')) return value;
    return this.#draft.variables.expand(value, place).replace(/(?<![ \t])[ \t]+$/u, '');
  }

  #readDirective(): Include | null {
    const text = this.#text;
    const wordEnd = endOfName(text, this.#at + 1);
    const from = endOfBlanks(text, wordEnd);
    const word = wordEnd - this.#at > 8 ? '' : text.slice(this.#at + 1, wordEnd);
    if (word === 'include' && text[from] === '"') return this.#readInclude(from + 1);
    if (word === 'define' && text.charCodeAt(from) === dollar) this.#readDefine(from + 1);
    else this.#skipLine('sfz-directive-broken');
    return null;
  }

  #readInclude(from: number): Include | null {
    const text = this.#text;
    let end = from;
    while (end < text.length && text[end] !== '"' && !isLineEnd(text.charCodeAt(end))) end += 1;
    if (text[end] !== '"') {
      this.#skipLine('sfz-directive-broken');
      return null;
    }
    const place = this.#place(this.#at, end + 1);
    this.#checkLength(end - from, place);
    this.#at = end + 1;
    return { path: this.#draft.variables.expand(text.slice(from, end), place), place };
  }

  #readDefine(from: number): void {
    const text = this.#text;
    const nameEnd = endOfName(text, from);
    if (nameEnd === from) {
      this.#skipLine('sfz-directive-broken');
      return;
    }
    const valueFrom = endOfBlanks(text, nameEnd);
    const end = endOfWord(text, valueFrom);
    const place = this.#place(this.#at, end);
    this.#at = end;
    this.#draft.variables.define(text.slice(from, nameEnd), text.slice(valueFrom, end), place);
  }

  /** What is not understood costs the rest of its line, as in the players that report it. */
  #skipLine(code: 'sfz-line-skipped' | 'sfz-directive-broken'): void {
    const start = this.#at;
    this.#at = endOfCode(this.#text, start);
    const text = shown(this.#text.slice(start, this.#at));
    this.#draft.remarks.add('warning', code, this.#place(start, this.#at), { text });
  }

  /** A comment in the first version of the format; other players stumble over it or read on. */
  #skipSlashLine(): void {
    const start = this.#at;
    this.#at = endOfLine(this.#text, start);
    const text = shown(this.#text.slice(start, this.#at));
    const place = this.#place(start, this.#at);
    this.#draft.remarks.add('warning', 'sfz-slash-line', place, { text });
  }

  #checkLength(length: number, place: Place): void {
    if (length <= limits.value) return;
    const args = { what: 'value', limit: limits.value } as const;
    throw this.#draft.remarks.error('sfz-too-large', place, args);
  }

  #place(start: number, end: number): Place {
    const { line, column } = this.#placeOf(start);
    return { file: this.#file, start, end, line, column };
  }
}
