type Paint = (text: string) => string;

/** The colours a report uses: part of what the terminal library offers, chosen once per stream. */
export interface Colors {
  readonly bold: Paint;
  readonly dim: Paint;
  readonly red: Paint;
  readonly green: Paint;
  readonly yellow: Paint;
  readonly cyan: Paint;
}

const asIs: Paint = (text) => text;

/** No colours: for files, pipes and tests. */
export const plainColors: Colors = {
  bold: asIs,
  dim: asIs,
  red: asIs,
  green: asIs,
  yellow: asIs,
  cyan: asIs,
};
