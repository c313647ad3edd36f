/** A zone that no note of the primer's own starts. */
export interface WantedZone {
  /** Id. */
  readonly instrument: string;
  /** The copy that has to start it; null: any, as all copies share what they load. */
  readonly copy: string | null;
  /** Index into the instrument's zones. */
  readonly zone: number;
}

/** One text for each. */
export const wantedKey = ({ instrument, copy, zone }: WantedZone): string =>
  JSON.stringify([instrument, copy, zone]);
