/** `keepset primer`, as a person runs it: what it writes, what it verifies, what it refuses. */
import { readFile } from 'node:fs/promises';
import { parseMidi, writeMidi, type MidiEvent } from 'midi-file';
import { describe, expect } from 'vitest';
import type { Plan } from '../../src/keep/plan.ts';
import { cue, cutCue, note, plainCue, program } from '../jobs/small-score.ts';
import { expectError, keepset, type Ended } from './keepset.ts';
import { test as base, type Folder } from './material.ts';
import { document } from './schemas.ts';

const template = `
middle-c: C4
cues: cues
instruments: { keys: { file: bank.sf2, preset: "0:0" } }
routes: [{ track: Keys, instrument: keys }]
`;

/** The small score with a template, its plan, and its primer. */
const test = base.extend<{ planned: Folder; primed: Folder }>({
  planned: async ({ score }, use) => {
    await score.write({ 'keepset.yaml': template });
    const made = await keepset(['plan', '-o', 'keep.json'], { cwd: score.path });
    expect(made.stderr).not.toMatch(/^error/mu);
    await use(score);
  },
  primed: async ({ planned }, use) => {
    expect((await primerIn(planned)).code).toBe(0);
    await use(planned);
  },
});

const primerIn = (folder: Folder, more: readonly string[] = ['-o', 'primer.mid']): Promise<Ended> =>
  keepset(['primer', '--keep', 'keep.json', ...more], { cwd: folder.path });

/** The primer as a sequencer might write it again. */
const exportAgain = async (
  folder: Folder,
  change: (events: readonly MidiEvent[]) => readonly MidiEvent[],
): Promise<void> => {
  const data = parseMidi(await readFile(folder.at('primer.mid')));
  const tracks = data.tracks.map((events) => [...change(events)]);
  await folder.write({ 'again.mid': Uint8Array.from(writeMidi({ ...data, tracks })) });
};

describe('writing', () => {
  test('makes a file and tells what it loads', async ({ planned }) => {
    const before = await planned.state();
    const { code, stdout, stderr } = await primerIn(planned);
    expect(code).toBe(0);
    expect(stderr).toBe('wrote primer.mid\n');
    expect(stdout).toMatch(/^It loads all that stays: 0:\d\d, /u);
    expect(stdout).toContain('keepset primer --keep keep.json --verify FILE.mid');
    const { 'primer.mid': written, ...others } = await planned.state();
    expect(written).toBeDefined();
    expect(others).toEqual(before);
  });

  test('as JSON', async ({ planned }) => {
    const { code, stdout } = await primerIn(planned, ['-o', 'p.mid', '--format', 'json']);
    expect(code).toBe(0);
    const [machine, ...none] = document(stdout, 'primer@1').machines;
    expect(none).toEqual([]);
    expect(machine!.instruments).toMatchObject([
      { id: 'keys', zones: 2, synthesised: 2, excerpted: 0, notPrimed: 0 },
    ]);
  });

  test('an earlier primer gives way, and nothing else does', async ({ primed }) => {
    expect((await primerIn(primed, ['-o', 'primer.mid', '--pace', '2'])).code).toBe(0);
    await primed.write({ 'song.mid': plainCue() });
    const before = await primed.state();
    for (const out of ['cues/1m1.mid', 'song.mid', 'keep.json', 'keepset.yaml', 'bank.sf2']) {
      const refused = await primerIn(primed, ['-o', out]);
      expect(refused.code).toBe(2);
      expectError(refused, 'output-exists', out);
    }
    expect(await primed.state()).toEqual(before);
  });

  test('a place is needed, and one that can be written', async ({ planned }) => {
    for (const more of [[], ['-o', '-']]) {
      const { code, stderr } = await primerIn(planned, more);
      expect(code).toBe(2);
      expect(stderr).toContain('Where should the primer go?');
    }
    const nowhere = await primerIn(planned, ['-o', 'no/such/primer.mid']);
    expect(nowhere.code).toBe(2);
    expectError(nowhere, 'output-unwritable', 'no/such/primer.mid');
  });
});

describe('verifying', () => {
  test('the primer itself, and one that was written again', async ({ primed }) => {
    await exportAgain(primed, (events) => events);
    for (const file of ['primer.mid', 'again.mid']) {
      const { code, stdout, stderr } = await primerIn(primed, ['--verify', file]);
      expect(stderr).toBe('');
      expect(code).toBe(0);
      expect(stdout).toMatch(/^Verified: .* loads all 2 zones that it should/u);
    }
  });

  test('names what is missing where notes were lost', async ({ primed }) => {
    await exportAgain(primed, (events) =>
      events.filter((one) => !('noteNumber' in one) || one.noteNumber < 60),
    );
    const args = ['--verify', 'again.mid', '--format', 'json'];
    const { code, stdout } = await primerIn(primed, args);
    expect(code).toBe(1);
    const result = document(stdout, 'primer-verification@1');
    expect(result.verdict).toBe('not-verified');
    // The zone from middle C up is the second of the bank.
    expect(result.instruments).toMatchObject([
      { id: 'keys', zones: 2, loaded: 1, missing: [{ zone: 1 }], needless: [] },
    ]);
    const told = await primerIn(primed, ['--verify', 'again.mid']);
    expect(told.code).toBe(1);
    expect(told.stdout).toContain('NOT VERIFIED');
  });

  test('names tracks that no rule takes', async ({ primed }) => {
    await exportAgain(primed, (events) =>
      events.map((one) => (one.type === 'trackName' ? { ...one, text: 'Piano' } : one)),
    );
    const { code, stdout, stderr } = await primerIn(primed, ['--verify', 'again.mid']);
    expect(code).toBe(1);
    expect(stdout).toContain('does not load 2 zones');
    expect(stderr).toMatch(/^warning\[primer-tracks-unmapped\].*Piano/u);
  });

  test('is not done by a file that is cut off', async ({ primed }) => {
    const bytes = await readFile(primed.at('primer.mid'));
    await primed.write({ 'again.mid': bytes.subarray(0, -5) });
    const { code, stderr } = await primerIn(primed, ['--verify', 'again.mid']);
    expect(code).toBe(1);
    expect(stderr).toContain('cue-damaged');
  });

  test('refuses what is no MIDI file, or is not there', async ({ primed }) => {
    const text = await primerIn(primed, ['--verify', 'keepset.yaml']);
    expect(text.code).toBe(2);
    expectError(text, 'midi-not-a-midi-file', 'keepset.yaml (byte 0x0)');
    const nothing = await primerIn(primed, ['--verify', 'none.mid']);
    expect(nothing.code).toBe(2);
    expectError(nothing, 'path-missing', 'none.mid');
    const both = await primerIn(primed, ['--verify', 'primer.mid', '-o', 'more.mid']);
    expect(both.code).toBe(2);
  });
});

describe('what is not known is refused', () => {
  test('damage, unless it is accepted', async ({ planned }) => {
    await planned.write({ 'cues/1m2.mid': cutCue() });
    await keepset(['plan', '-o', 'keep.json'], { cwd: planned.path });
    const refused = await primerIn(planned);
    expect(refused.code).toBe(2);
    expectError(refused, 'primer-damaged', 'keep.json');
    const accepted = await primerIn(planned, ['-o', 'primer.mid', '--accept-damage', '1m2']);
    expect(accepted.code).toBe(0);
    expect(accepted.stdout).toContain('Accepted on your word: damaged cues (1m2)');
  });

  test('tracks that no rule takes, unless they are let pass', async ({ planned }) => {
    const other = cue({ name: 'Pads', events: [program(0, 0), note(0, 64)] });
    await planned.write({ 'cues/1m2.mid': other });
    await keepset(['plan', '--allow-unmapped', '-o', 'keep.json'], { cwd: planned.path });
    const plan = JSON.parse(await readFile(planned.at('keep.json'), 'utf8')) as Plan;
    const settings = { ...plan.settings, allowUnmapped: false };
    await planned.write({ 'keep.json': JSON.stringify({ ...plan, settings }) });
    const refused = await primerIn(planned);
    expect(refused.code).toBe(2);
    expectError(refused, 'primer-unmapped', 'keep.json');
    expect((await primerIn(planned, ['-o', 'p.mid', '--allow-unmapped'])).code).toBe(0);
  });

  test('a template, or a cue, that is another now', async ({ planned }) => {
    await planned.write({ 'keepset.yaml': `${template}slack: 0\n` });
    expectError(await primerIn(planned), 'primer-template-changed', 'keepset.yaml');
    await planned.write({ 'keepset.yaml': template, 'cues/1m1.mid': cutCue() });
    const changed = await primerIn(planned);
    expect(changed.code).toBe(2);
    expectError(changed, 'primer-cue-changed', 'cues/1m1.mid');
  });
});
