import type { Range } from '../../terms/range.ts';

/**
 * What an action does, to which zones of what: its identity from one plan to the next. Written out it can
 * be read by a person, and read back it says what was done although the plan is another by now.
 */
export interface ActionKey {
  readonly does: 'load' | 'unload';
  /** Id. */
  readonly instrument: string;
  /** Name of the only copy that is meant; null: all of them, or those that `spare` counts. */
  readonly copy: string | null;
  /** How many copies no cue plays, whose names no plan has, where just these are meant; else 0. */
  readonly spare: number;
  /** Names of the part, such as its articulation: for the reader, and to tell parts apart. */
  readonly part: readonly string[];
  /** Numbers of zones as the definition has them: ascending, apart. */
  readonly zones: readonly Range[];
  /** Of all zones of the instrument then (`zoneFingerprint`): by it these numbers still mean the same. */
  readonly fingerprint: string;
}

/** Names may hold what divides a key, and what acts on a terminal (Unicode categories, as `printable`). */
const special = /[%/:@,\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu;

const escaped = (name: string): string => {
  const text = name.replace(special, (sign) => {
    const hex = sign.codePointAt(0)!.toString(16).toUpperCase();
    return hex.length <= 2 ? `%${hex.padStart(2, '0')}` : `%{${hex}}`;
  });
  // Blanks at the ends are lost in tables, and a dash leads the number of copies without a name.
  return text.replace(/^ | $/gu, '%20').replace(/^-/u, '%2D');
};

const escapes = /%(?:([0-9A-Fa-f]{2})|\{([0-9A-Fa-f]{1,6})\})/gu;

/** @returns null when a percent sign leads nothing */
const unescaped = (text: string): string | null => {
  const codes = [...text.matchAll(escapes)].map(([, short, long]) => parseInt(short ?? long!, 16));
  if (text.replace(escapes, '').includes('%') || codes.some((code) => code > 0x10_ff_ff)) {
    return null;
  }
  return text.replace(escapes, (_, short?: string, long?: string) =>
    String.fromCodePoint(parseInt(short ?? long!, 16)),
  );
};

/**
 * Writes a key.
 *
 * @example writeActionKey(key) // 'unload horns@Hn 1/sustain: 0-11,24-30 #1a2b3c4d'
 */
export const writeActionKey = ({
  does,
  instrument,
  copy,
  spare,
  part,
  zones,
  fingerprint,
}: ActionKey): string => {
  const whose = spare > 0 ? `@-${String(spare)}` : copy === null ? '' : `@${escaped(copy)}`;
  const what = [`${escaped(instrument)}${whose}`, ...part.map(escaped)].join('/');
  const ids = zones.map(([lo, hi]) => (lo === hi ? String(lo) : `${String(lo)}-${String(hi)}`));
  return `${does} ${what}: ${ids.join(',')} #${fingerprint}`;
};

const shape =
  /^(load|unload) ([^/:@]+)(?:@([^/:@]*))?((?:\/[^/:@]*)*): ?([\d,-]+) ?#([\da-f]{8})$/u;

/**
 * Reads a key.
 *
 * @returns null when it is none, its zones are not ascending, or it does not say whose numbers these are
 */
export const parseActionKey = (text: string): ActionKey | null => {
  const [, does, first, whose, rest, ids, fingerprint] = shape.exec(text.trim()) ?? [];
  if (first === undefined || rest === undefined || ids === undefined) return null;
  if (fingerprint === undefined) return null;
  const instrument = unescaped(first);
  const spare = Number(/^-([1-9]\d{0,6})$/u.exec(whose ?? '')?.[1] ?? 0);
  const copy = whose === undefined || spare > 0 ? null : unescaped(whose);
  const part = rest.split('/').slice(1).map(unescaped);
  const zones = parseZones(ids);
  if (instrument === null || zones === null || part.includes(null)) return null;
  if (copy === null && whose !== undefined && spare === 0) return null;
  if (whose?.startsWith('-') === true && spare === 0) return null;
  return {
    does: does === 'load' ? 'load' : 'unload',
    instrument,
    copy,
    spare,
    part: part as readonly string[],
    zones,
    fingerprint,
  };
};

const parseZones = (text: string): readonly Range[] | null => {
  const zones: Range[] = [];
  let next = 0;
  for (const one of text.split(',')) {
    const [, from, to = from] = /^(\d{1,15})(?:-(\d{1,15}))?$/u.exec(one) ?? [];
    const [lo, hi] = [Number(from), Number(to)];
    if (!(lo >= next && lo <= hi)) return null;
    zones.push([lo, hi]);
    next = hi + 1;
  }
  return zones;
};

/** True where one undoes some of what the other does; by other definitions no numbers are alike. */
export const areContrary = (a: ActionKey, b: ActionKey): boolean =>
  a.does !== b.does &&
  a.instrument === b.instrument &&
  a.fingerprint === b.fingerprint &&
  a.spare > 0 === b.spare > 0 &&
  (a.copy === null || b.copy === null || a.copy === b.copy) &&
  overlap(a.zones, b.zones);

const overlap = (a: readonly Range[], b: readonly Range[]): boolean => {
  let [i, j] = [0, 0];
  for (;;) {
    const [one, other] = [a[i], b[j]];
    if (one === undefined || other === undefined) return false;
    if (one[1] < other[0]) i++;
    else if (other[1] < one[0]) j++;
    else return true;
  }
};
