import { partsOf, type Part } from '../midi/parts.ts';
import type { Score } from '../midi/score.ts';
import { countNotes } from '../playback/count-notes.ts';
import type { PartNotes } from '../playback/note-usage.ts';
import { RouteLog } from '../template/routes/route-log.ts';
import { routeScore } from '../template/routes/route-score.ts';
import type { Template } from '../template/template.ts';
import { belongingIn } from './belonging.ts';
import type { Standing } from './update-template.ts';

/** Which part it is within a file; ports and channels from 0. */
const partId = ({ track, port, channel }: Pick<Part, 'track' | 'port' | 'channel'>): number =>
  (track * 128 + port) * 16 + channel;

/** What the rules of a template do with the parts of cues. */
export class RoutedParts {
  readonly #template: Template;
  readonly #log = new RouteLog();
  readonly #unmapped = new Set<PartNotes>();
  readonly #instruments = new Map<PartNotes, Set<string>>();

  constructor(template: Template) {
    this.#template = template;
  }

  /**
   * Sends the parts of a cue file where the rules say, and counts what they play.
   *
   * @param file which of the cue's files, from 0
   */
  count(cue: string, file: number, score: Score): readonly PartNotes[] {
    const parts = countNotes(score, file);
    const byId = new Map(
      parts.map((part) => {
        const { track, port, channel } = part;
        return [partId({ track, port: port - 1, channel: channel - 1 }), part];
      }),
    );
    // Without the instruments: which articulations they have does not matter here.
    const { copies, unmapped } = routeScore(
      this.#template,
      cue,
      score,
      partsOf(score),
      file,
      new Map(),
      this.#log,
    );
    for (const part of unmapped) {
      const own = byId.get(partId(part));
      if (own !== undefined) this.#unmapped.add(own);
    }
    for (const { instrument, sources } of copies) {
      for (const { track, port, channels } of sources) {
        for (let channel = 0; channel < 16; channel += 1) {
          const own = byId.get(partId({ track, port, channel }));
          if (own === undefined || ((channels >> channel) & 1) === 0) continue;
          const known = this.#instruments.get(own);
          if (known === undefined) this.#instruments.set(own, new Set([instrument]));
          else known.add(instrument);
        }
      }
    }
    return parts;
  }

  /** What an update must know. @param text the template's own */
  standing(text: string): Standing {
    const { instruments, routes, names } = this.#template;
    const named = routes.flatMap(({ outcome }) =>
      outcome.kind === 'play' && outcome.articulation !== null ? outcome.instruments : [],
    );
    return {
      isUnmapped: (part) => this.#unmapped.has(part),
      instrumentsOf: (part) => [...(this.#instruments.get(part) ?? [])],
      ids: instruments.map(({ id }) => id),
      named: new Set(named),
      names,
      belonging: belongingIn(text),
    };
  }
}
