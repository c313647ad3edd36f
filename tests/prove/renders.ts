import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { renderFluidSynth, renderTimidity, type FluidSettings, type Render } from './render.ts';
import { onlyTheGivenBank } from './timidity-home.ts';

/** A synthesiser, with its settings. */
export type Synth =
  { readonly name: 'timidity' } | ({ readonly name: 'fluidsynth' } & FluidSettings);

/**
 * Renders in a temporary folder of its own, and keeps of each file only its sum and size. Renders of
 * banks as they are installed are made once for a run.
 */
export class Renders {
  readonly folder: string;
  readonly #clean = new Map<string, Promise<Render>>();
  #next = 0;

  private constructor(folder: string) {
    this.folder = folder;
  }

  static async open(): Promise<Renders> {
    const folder = await mkdtemp(path.join(tmpdir(), 'keepset-prove-'));
    await onlyTheGivenBank(folder);
    return new Renders(folder);
  }

  /** Removes the folder with all that is in it. */
  async close(): Promise<void> {
    await rm(this.folder, { recursive: true, force: true });
  }

  /** A name in the folder that no other file has. */
  file(extension: string): string {
    this.#next += 1;
    return path.join(this.folder, `${String(this.#next)}.${extension}`);
  }

  /** The render with a bank that does not change during the run. */
  clean(synth: Synth, bank: string, cue: string): Promise<Render> {
    const key = JSON.stringify([synth, bank, cue]);
    const known = this.#clean.get(key) ?? this.render(synth, bank, cue);
    this.#clean.set(key, known);
    return known;
  }

  async render(synth: Synth, bank: string, cue: string): Promise<Render> {
    const out = this.file('wav');
    try {
      return synth.name === 'timidity'
        ? await renderTimidity(bank, cue, out)
        : await renderFluidSynth(bank, cue, out, synth);
    } finally {
      await rm(out, { force: true });
    }
  }

  /** Whether a bank sounds, bit for bit and to the same length, as the clean bank does. */
  async same(synth: Synth, clean: string, changed: string, cue: string): Promise<boolean> {
    const [one, other] = await Promise.all([
      this.clean(synth, clean, cue),
      this.render(synth, changed, cue),
    ]);
    return one.sha256 === other.sha256 && one.bytes === other.bytes && one.ended === other.ended;
  }
}
