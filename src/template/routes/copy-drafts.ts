import type { Part } from '../../midi/parts.ts';
import type { RoutedCopy } from '../routed.ts';
import { unchanged, type Transform } from '../route.ts';

interface SourceDraft {
  readonly track: number;
  readonly port: number;
  channels: number;
  readonly transform: Transform;
}

interface CopyDraft extends RoutedCopy {
  readonly sources: SourceDraft[];
}

const isSame = (a: Transform, b: Transform): boolean =>
  a === b ||
  (a.transpose === b.transpose &&
    a.velocity === b.velocity &&
    a.controllers.size === b.controllers.size &&
    [...a.controllers].every(([from, to]) => b.controllers.get(from) === to));

/** Copies as their parts come, in the order of {@link Part}s. */
export class CopyDrafts {
  readonly #drafts = new Map<string, CopyDraft>();

  /** In the order in which they were first heard of. */
  get copies(): readonly RoutedCopy[] {
    return [...this.#drafts.values()];
  }

  /**
   * Sends a part to a copy.
   *
   * @param key equal for parts of one copy
   * @param start makes the copy when this is its first part
   */
  add(
    key: string,
    { track, port, channel }: Part,
    transform: Transform,
    start: () => Omit<RoutedCopy, 'sources'>,
  ): void {
    let draft = this.#drafts.get(key);
    if (draft === undefined) this.#drafts.set(key, (draft = { ...start(), sources: [] }));
    const { sources } = draft;
    // Parts come by track and port, so what belongs together is at the end.
    for (let i = sources.length - 1; i >= 0; i -= 1) {
      const source = sources[i]!;
      if (source.track !== track || source.port !== port) break;
      if (!isSame(source.transform, transform)) continue;
      source.channels |= 1 << channel;
      return;
    }
    sources.push({ track, port, channels: 1 << channel, transform });
  }

  /** Lets every copy that `hears` a part have its events too. */
  overhear({ track, port, channel }: Part, hears: (copy: RoutedCopy) => boolean): void {
    for (const draft of this.#drafts.values()) {
      if (!hears(draft)) continue;
      draft.sources.push({ track, port, channels: 1 << channel, transform: unchanged });
      draft.sources.sort((a, b) => a.track - b.track || a.port - b.port);
    }
  }
}
