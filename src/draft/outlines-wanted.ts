import type { SeenSwitches } from './stub-articulations.ts';

/** Where the outlines of a draft go, and what is known for them. */
export interface OutlinesWanted {
  /** The folder as the user names it; `.` is the one where the user is. */
  readonly folder: string;
  /** The same folder from the template's own; empty: it is that one. */
  readonly fromTemplate: string;
  /** The octave of key 60 in the outlines. */
  readonly middleC: number;
  readonly pressesOf: SeenSwitches['pressesOf'];
}

const within = (folder: string, instrument: string): string =>
  `${folder === '' || folder.endsWith('/') ? folder : `${folder}/`}${instrument}.yaml`;

/** Where the outline of an instrument is, for the user. */
export const outlinePlace = ({ folder }: OutlinesWanted, instrument: string): string =>
  within(folder.replace(/^\.\/?$/, ''), instrument);

/** The same as the template names it. */
export const outlinePath = ({ fromTemplate }: OutlinesWanted, instrument: string): string =>
  within(fromTemplate, instrument);
