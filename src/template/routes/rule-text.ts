import type { RouteFields } from './route-fields.ts';
import { shortened } from '../../notation/document/shortened.ts';

/** Patterns that are shown. */
const most = 3;

const quoted = (texts: readonly string[], between: string): string =>
  [
    ...texts.slice(0, most).map((text) => `"${shortened(text)}"`),
    ...(texts.length > most ? ['…'] : []),
  ].join(between);

/**
 * A rule as a person would recognise it: what it selects by, long patterns cut.
 *
 * @example ruleText(fields) // 'track "Vc {art}", channel 2'
 */
export const ruleText = ({ tracks, join, cue, port, channel }: RouteFields): string =>
  [
    tracks === null ? `join ${quoted(join ?? [], ' + ')}` : `track ${quoted(tracks, ' or ')}`,
    ...(cue === null ? [] : [`cue ${quoted([cue], '')}`]),
    ...(port === null ? [] : [`port ${String(port)}`]),
    ...(channel === null ? [] : [`channel ${String(channel)}`]),
  ].join(', ');
