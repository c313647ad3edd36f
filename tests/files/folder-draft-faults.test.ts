import { existsSync, mkdirSync, readdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, test } from 'vitest';
import { diskCalls, type FolderCalls } from '../../src/files/folder-calls.ts';
import { InputError } from '../../src/terms/errors.ts';
import type { OutputFile } from '../../src/trim/output-file.ts';
import {
  all,
  copy,
  inPlace,
  list,
  options,
  put,
  putOurs,
  refused,
  text,
  writeFolder,
} from './folder-draft-places.ts';

type At = (name: string) => string;

/** What a new folder holds: made and copied, at the top and further down, and the list. */
const files = (at: At): readonly OutputFile[] => [
  text('a.sfz', 'some'),
  { path: 'deep/a.wav', pieces: [copy(at('a.wav'), 6, 1), copy(at('b.wav'), 3)] },
  { path: 'deep/er/b.wav', pieces: [copy(at('b.wav'), 3)] },
  text('trim.json', list({ 'a.sfz': 'some', 'deep/a.wav': 'bcdefxyz', 'deep/er/b.wav': 'xyz' })),
];

const scenes: readonly {
  readonly name: string;
  readonly out: string;
  readonly before: (at: At) => void;
}[] = [
  { name: 'nothing', out: 'out', before: () => undefined },
  { name: 'nothing, in a new folder', out: 'new/er/out', before: () => undefined },
  { name: 'an empty folder', out: 'out', before: (at) => mkdirSync(at('out')) },
  {
    name: 'a folder that was made before',
    out: 'out',
    before: (at) => putOurs(at('out'), { 'old.sfz': 'old', 'deep/old.wav': 'older' }),
  },
];

/** The system, where every call is counted and some of them fail. */
class Failing {
  readonly calls: FolderCalls;
  readonly made: string[] = [];

  constructor(code: string, fails: (call: number, name: string) => boolean) {
    const entries = Object.entries(
      diskCalls as unknown as Record<string, (...args: never[]) => unknown>,
    );
    const wrapped = entries.map(([name, call]) => [
      name,
      (...args: never[]) => {
        this.made.push(name);
        const isToFail = fails(this.made.length - 1, name);
        // What is closed is closed, whatever the system says about it.
        const isToDo = !isToFail || name === 'close';
        // Waiting for the disk changes nothing that can be seen here.
        const result = isToDo && name !== 'sync' ? call(...args) : null;
        if (isToFail) throw Object.assign(new Error(`${name} fails`), { code });
        return result;
      },
    ]);
    this.calls = Object.fromEntries(wrapped) as FolderCalls;
  }
}

interface Outcome {
  readonly error: unknown;
  /** Calls that were made. */
  readonly made: readonly string[];
  /** What is at the output: as before, the new one whole, or nothing where there was something. */
  readonly state: 'before' | 'new' | 'gone';
  /** Names of what else is there, the random signs left out, with what they hold. */
  readonly left: readonly (readonly [name: string, content: string])[];
}

const run = async (
  scene: (typeof scenes)[number],
  code: string,
  fails: (call: number, name: string) => boolean,
): Promise<Outcome & { readonly was: string }> => {
  let outcome: (Outcome & { readonly was: string }) | null = null;
  await inPlace(async (at) => {
    put(at('a.wav'), 'abcdef');
    put(at('b.wav'), 'xyz');
    scene.before(at);
    const was = content(at(scene.out));
    const failing = new Failing(code, fails);
    const how = options({ force: true, inputs: [at('a.wav'), at('b.wav')], bytes: 10 });
    const error = await writeFolder(at(scene.out), files(at), how, failing.calls).then(
      () => null,
      (thrown: unknown) => thrown,
    );
    const is = content(at(scene.out));
    const state = is === whole ? 'new' : is === was ? 'before' : is === 'nothing' ? 'gone' : null;
    if (state === null) throw new Error(`after ${failing.made.join(' ')} there is ${is}`);
    const [top] = scene.out.split('/');
    const above = scene.out === top ? at('') : dirname(at(scene.out));
    const names = existsSync(above) ? readdirSync(above) : [];
    const left = names
      .filter((name) => !['a.wav', 'b.wav', 'out'].includes(name))
      .map((name) => [name.replace(/[0-9a-f]{8}/, '*'), content(`${above}/${name}`)] as const);
    // Folders that were made for it go too; where not even that can be done, they are empty.
    if (scene.out !== top && error !== null && left.length === 0 && existsSync(at(top!))) {
      left.push([`${top!}/`, content(at(top!))]);
    }
    outcome = { error, made: failing.made, state, left, was };
  });
  return outcome!;
};

const content = (path: string): string =>
  existsSync(path) ? JSON.stringify(all(path)) : 'nothing';

const whole = JSON.stringify({
  ...{ 'a.sfz': 'some', deep: null, 'deep/a.wav': 'bcdefxyz', 'deep/er': null },
  ...{ 'deep/er/b.wav': 'xyz' },
  'trim.json': list({ 'a.sfz': 'some', 'deep/a.wav': 'bcdefxyz', 'deep/er/b.wav': 'xyz' }),
});

const removing = ['removeAll', 'removeEmpty'];

describe.for(scenes)('where there is $name', (scene) => {
  test('without a fault it is written', async () => {
    const { error, state, left, made } = await run(scene, '', () => false);
    expect({ error, state, left }).toEqual({ error: null, state: 'new', left: [] });
    expect(made.length).toBeGreaterThan(40);
  });

  test.for(['ENOSPC', 'EIO', 'EACCES'])('each call in turn fails with %s', async (code) => {
    const { made } = await run(scene, '', () => false);
    let failed = 0;
    for (const [nth, name] of made.entries()) {
      const { error, state, left } = await run(scene, code, (call) => call === nth);
      const where = `${name}, call ${nth}: ${String(error)}`;
      if (error === null) expect(state, where).toBe('new');
      else {
        failed += 1;
        expect(error, where).toBeInstanceOf(InputError);
        expect(state, where).toBe('before');
      }
      if (removing.includes(name)) {
        for (const [other] of left) expect(other, where).toMatch(/\.(?:part|old)$/);
      } else expect(left, where).toEqual([]);
    }
    // Some may fail: the source is closed, the old folder removed, nobody knows how much is free.
    expect(failed).toBeGreaterThan(made.length * 0.8);
  });

  test('from each call on all fail', async () => {
    const { made } = await run(scene, '', () => false);
    for (const [nth, name] of made.entries()) {
      const { error, state, left, was } = await run(scene, 'EIO', (call) => call >= nth);
      const where = `from ${name}, call ${nth}: ${String(error)}`;
      if (error !== null) expect(error, where).toBeInstanceOf(InputError);
      expect(state === 'new', where).toBe(error === null);
      for (const [other, held] of left) {
        // What was there is then beside, whole; a draft is known by its name.
        if (other === 'out.*.old') expect(state === 'new' || held === was, where).toBe(true);
        else expect(other, where).toMatch(/^out\.\*\.part$|\/$/);
      }
      if (state === 'gone' && was !== '{}') {
        expect(left.find(([other]) => other === 'out.*.old')?.[1], where).toBe(was);
      }
    }
  });

  test('each call and every removing fail', async () => {
    const { made } = await run(scene, '', () => false);
    for (const [nth, name] of made.entries()) {
      const fails = (call: number, one: string) => call === nth || removing.includes(one);
      const { error, state, left } = await run(scene, 'EIO', fails);
      const where = `${name}, call ${nth}: ${String(error)}`;
      if (error !== null) expect(error, where).toBeInstanceOf(InputError);
      expect(state, where).toBe(error === null ? 'new' : 'before');
      for (const [other] of left) expect(other, where).toMatch(/^out\.\*\.(?:part|old)$|\/$/);
    }
  });
});

test('what was there can’t be put back: the message says where it is, and nothing of it is lost', async () => {
  let renames = 0;
  const fails = (_: number, name: string) => name === 'rename' && ++renames > 1;
  const { error, state, left, was } = await run(scenes.at(-1)!, 'EIO', fails);
  expect(error).toMatchObject({
    finding: {
      code: 'output-unwritable',
      args: { reason: expect.stringMatching(/out\.[0-9a-f]{8}\.old$/) as string },
    },
  });
  expect({ state, left }).toEqual({ state: 'gone', left: [['out.*.old', was]] });
});

test('a fault of the program is passed on, and tidied up after as well', async () => {
  await inPlace(async (at) => {
    const broken = {
      ...diskCalls,
      write: () => {
        throw new Error('a fault');
      },
    };
    await expect(writeFolder(at('out'), [text('a')], options(), broken)).rejects.toThrow('a fault');
    expect(all(at(''))).toEqual({});
  });
});

test('a disk that takes a little at a time, and one that takes nothing', async () => {
  await inPlace(async (at) => {
    const slow = {
      ...diskCalls,
      write: (descriptor: number, bytes: Uint8Array) =>
        diskCalls.write(descriptor, bytes.subarray(0, 2)),
    };
    await writeFolder(at('out'), [text('a', 'abcde')], options(), slow);
    expect(all(at(''))).toEqual({ out: null, 'out/a': 'abcde' });
    const stuck = { ...diskCalls, write: () => 0 };
    await expect(writeFolder(at('no'), [text('a')], options(), stuck)).rejects.toMatchObject(
      refused('output-unwritable', at('no')),
    );
  });
});
