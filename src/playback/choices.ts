import { selects } from '../instruments/switches.ts';
import type { Program } from '../instruments/program.ts';
import type { PatchSignal } from './patch-signal.ts';
import type { Scope } from './scope.ts';
import type { Choice } from './zone-usage.ts';

/** Stands for all channels of a copy that share one state. */
const shared = -1;

/** What a copy chose: the values of its switches, programs and patches, by channel where each has its own. */
export const choicesOf = (
  { signals }: Program,
  scopes: readonly Scope[],
  patch: PatchSignal | null,
): readonly Choice[] =>
  signals
    .flatMap(({ kind }, signal): readonly Choice[] => {
      if (kind === 'patch') {
        return Array.from({ length: 16 }, (_, channel) => ({
          signal,
          channel,
          values: patch?.chosen(channel) ?? [],
        }));
      }
      if (!selects(signals[signal]!)) return [];
      return scopes.map((scope, channel) => ({
        signal,
        channel: scopes.length === 1 ? shared : channel,
        values: scope.chosen(signal),
      }));
    })
    .filter(({ values }) => values.length > 0);
