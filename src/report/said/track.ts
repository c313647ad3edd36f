import type { MissBars } from '../../keep/check/check.ts';
import { said, type Said } from './said.ts';

/** A track as people find it; one without a name by its number, from 0 as everywhere in `check`. */
export const trackSaid = ({ track, trackName }: Pick<MissBars, 'track' | 'trackName'>): Said =>
  trackName === null || trackName.trim() === ''
    ? [`track ${String(track)}`]
    : said`${{ name: trackName }}`;
