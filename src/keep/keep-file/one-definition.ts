/** What names a definition: its digest, and where it is. */
export interface Definition {
  readonly sha256: string;
  readonly source: string;
}

/** A bank's digest is that of all its presets; one preset of it has other zones than the next. */
export const isOneDefinition = (a: Definition, b: Definition): boolean =>
  a.sha256 === b.sha256 && presetOf(a) === presetOf(b);

const presetOf = ({ source }: Definition): string => /#\d+:\d+$/u.exec(source)?.[0] ?? '';
