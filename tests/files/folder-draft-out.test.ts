import { spawnSync } from 'node:child_process';
import { linkSync, mkdirSync, symlinkSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { checkFolder, type FolderOptions } from '../../src/files/check-folder.ts';
import { diskCalls } from '../../src/files/folder-calls.ts';
import { FolderDraft } from '../../src/files/folder-draft.ts';
import { all, inPlace, list, options, put, putOurs, refused } from './folder-draft-places.ts';

const force = { force: true };

const looks = [
  {
    name: 'FolderDraft.open',
    look: async (...args: Parameters<typeof checkFolder>): Promise<void> => {
      await FolderDraft.open(...args);
    },
  },
  { name: 'checkFolder', look: checkFolder },
];

interface Refusal {
  readonly what: string;
  readonly code: string;
  readonly args?: object;
  /** Puts something at `out`, or around it. */
  readonly before: (at: (name: string) => string) => void;
  readonly how?: (at: (name: string) => string) => Partial<FolderOptions>;
  readonly out?: string;
}

const exists = (reason: string) => ({ code: 'trim-out-exists', args: { reason } });
const others = (...names: readonly string[]) => ({ code: 'trim-out-others', args: { names } });
const kind = (what: string) => ({ code: 'trim-out-kind', args: { kind: what } });
const listed = (text: string) => (at: (name: string) => string) => {
  put(at('out/trim.json'), text);
};
const ours = (at: (name: string) => string) => {
  putOurs(at('out'), { 'a.sfz': 'abc', 'deep/b': 'b' });
};
const oursAnd = (path: string) => (at: (name: string) => string) => {
  ours(at);
  put(at(`out/${path}`));
};

const refusals: readonly Refusal[] = [
  { what: 'a file', ...kind('file'), before: (at) => put(at('out')) },
  { what: 'a pipe', ...kind('file'), before: (at) => void spawnSync('mkfifo', [at('out')]) },
  {
    what: 'a link to a folder, also with a slash',
    ...kind('link'),
    out: 'out/',
    before: (at) => {
      mkdirSync(at('empty'));
      symlinkSync('empty', at('out'));
    },
  },
  { what: 'a link to nowhere', ...kind('link'), before: (at) => symlinkSync('no', at('out')) },
  { what: 'a folder of others', ...exists('not-ours'), before: (at) => put(at('out/mine')) },
  { what: 'a folder in it', ...exists('not-ours'), before: (at) => put(at('out/deep/mine')) },
  {
    what: 'one that was made before, without force',
    ...{ ...exists('ours'), before: ours, how: () => ({ force: false }) },
  },
  ...[
    '',
    '[]',
    'null',
    '{}',
    '{"schema":"keepset/trim@1"',
    '{"schema":"keepset/trim@1"}',
    '{"schema":"keepset/trim@2","files":[]}',
    '{"schema":"keepset/trim@1","files":{}}',
    '{"schema":"keepset/trim@1","files":[null]}',
    '{"schema":"keepset/trim@1","files":[{"path":1,"bytes":1}]}',
    '{"schema":"keepset/trim@1","files":[{"path":"a"}]}',
    list({}, { dryRun: true }),
  ].map((text) => ({
    ...{ what: `the list ${text}`, ...exists('not-ours'), before: listed(text) },
  })),
  {
    what: 'a list that is a folder',
    ...{
      ...exists('not-ours'),
      before: (at) => mkdirSync(at('out/trim.json'), { recursive: true }),
    },
  },
  {
    what: 'a list that is a link to one',
    ...exists('not-ours'),
    before: (at) => {
      put(at('list'), list({}));
      mkdirSync(at('out'));
      symlinkSync('../list', at('out/trim.json'));
    },
  },
  {
    what: 'a list that is a pipe',
    ...exists('not-ours'),
    before: (at) => {
      mkdirSync(at('out'));
      spawnSync('mkfifo', [at('out/trim.json')]);
    },
  },
  { what: 'a file of others', ...others('mine'), before: oursAnd('mine') },
  { what: 'one further down', ...others('deep/mine/mine'), before: oursAnd('deep/mine/mine') },
  { what: 'a list further down', ...others('deep/trim.json'), before: oursAnd('deep/trim.json') },
  { what: 'other capitals', ...others('A.sfz'), before: oursAnd('A.sfz') },
  { what: 'a file that was changed', ...others('a.sfz'), before: oursAnd('a.sfz') },
  {
    what: 'many: five are named',
    ...others('deep/1', 'deep/2', 'n1', 'n2', 'n3'),
    before: (at) => {
      ours(at);
      for (const name of ['n3', 'deep/2', 'n1', 'n4', 'deep/1', 'n2']) put(at(`out/${name}`));
    },
  },
  {
    what: 'a link to a folder of others',
    ...others('linked'),
    before: (at) => {
      put(at('mine/a'));
      ours(at);
      symlinkSync('../mine', at('out/linked'));
    },
  },
  {
    what: 'a link in place of a listed file',
    ...others('a.sfz'),
    before: (at) => {
      put(at('abc'), 'abc');
      putOurs(at('out'), {});
      put(at('out/trim.json'), list({ 'a.sfz': 'abc' }));
      symlinkSync('../abc', at('out/a.sfz'));
    },
  },
  { what: 'a file above it', code: 'output-unwritable', out: 'a/b', before: (at) => put(at('a')) },
  { what: 'one further up', code: 'output-unwritable', out: 'a/b/c', before: (at) => put(at('a')) },
  ...['/', 'a/..', '.', '..', 'a/.', 'a\0'].map((out) => ({
    ...{ what: JSON.stringify(out), code: 'output-unwritable', out, before: () => undefined },
  })),
  {
    what: 'a disk without room',
    code: 'trim-no-space',
    args: { needed: 2 ** 60, free: expect.any(Number) as number },
    before: () => undefined,
    how: () => ({ bytes: 2 ** 60 }),
  },
];

describe.for(looks)('$name refuses', ({ look }) => {
  test.for(refusals)('$what', async ({ code, args, before, how, out = 'out' }) => {
    await inPlace(async (at) => {
      before(at);
      const was = all(at(''));
      const full = out === '/' ? '/' : at(out);
      await expect(look(full, options({ ...force, ...how?.(at) }))).rejects.toMatchObject(
        refused(code, full, args),
      );
      expect(all(at(''))).toEqual(was);
    });
  });

  test('no name', async () => {
    await expect(look('', options())).rejects.toMatchObject(refused('output-unwritable', ''));
  });

  test.for([
    { what: 'an input in it', input: 'out/a.sfz' },
    { what: 'one further down', input: 'out/deep/b' },
    { what: 'by another way', input: 'else/../out/deep/../a.sfz' },
    { what: 'through a linked folder', input: 'linked/a.sfz' },
    { what: 'by a link to it', input: 'link' },
    { what: 'one that is not there', input: 'out/missing' },
    { what: 'itself', input: 'out' },
  ])('$what', async ({ input }) => {
    await inPlace(async (at) => {
      ours(at);
      mkdirSync(at('else'));
      put(at('other'));
      symlinkSync('out', at('linked'));
      symlinkSync('out/a.sfz', at('link'));
      const looking = look(at('out'), options({ ...force, inputs: [at('other'), at(input)] }));
      await expect(looking).rejects.toMatchObject(
        refused('trim-out-input', at('out'), { input: at(input) }),
      );
    });
  });

  test('a link in it that leads to an input elsewhere: it would be lost', async () => {
    await inPlace(async (at) => {
      put(at('cue'));
      mkdirSync(at('out'));
      symlinkSync('../cue', at('out/cue'));
      await expect(look(at('out'), options({ inputs: [at('out/cue')] }))).rejects.toMatchObject(
        refused('trim-out-input', at('out')),
      );
    });
  });

  test('the working folder', async () => {
    await inPlace(async (at) => {
      mkdirSync(at('out/deep'), { recursive: true });
      const isIt = { ...diskCalls, stat: () => diskCalls.stat(at('out')) };
      await expect(look(at('out'), options(), isIt)).rejects.toMatchObject(
        refused('output-unwritable', at('out')),
      );
    });
  });

  test('a folder that may not be written in', async () => {
    await inPlace(async (at) => {
      const locked = {
        ...diskCalls,
        mayWriteIn: () => {
          throw Object.assign(new Error('locked'), { code: 'EACCES' });
        },
      };
      await expect(look(at('out'), options(), locked)).rejects.toMatchObject(
        refused('output-unwritable', at('out'), { reason: 'EACCES' }),
      );
      expect(all(at(''))).toEqual({});
    });
  });
});

describe('checkFolder takes', () => {
  const takes = (
    what: string,
    before: (at: (name: string) => string) => void,
    how: (at: (name: string) => string) => Partial<FolderOptions> = () => ({}),
    calls = diskCalls,
  ) =>
    test(what, async () => {
      await inPlace(async (at) => {
        before(at);
        const asked = options(how(at));
        const was = all(at(''));
        await checkFolder(at('out'), asked, calls);
        expect(all(at(''))).toEqual(was);
      });
    });

  takes('nothing', () => undefined);
  takes('an empty folder', (at) => mkdirSync(at('out')));
  takes('one that was made before, with force', ours, () => force);
  takes('inputs beside it, above it, and linked names', ours, (at) => {
    put(at('cue'));
    put(at('out2/cue'));
    linkSync(at('out/a.sfz'), at('second'));
    return { ...force, inputs: ['cue', 'out2/cue', 'second', 'missing'].map(at) };
  });
  takes(
    'what lies in the folder of inputs',
    (at) => put(at('cue')),
    (at) => ({ inputs: [at('cue'), at('')] }),
  );
  takes(
    'a disk that does not say how much is free',
    () => undefined,
    () => ({ bytes: 2 ** 60 }),
    {
      ...diskCalls,
      free: () => null,
    },
  );
  takes(
    'a disk that can’t be asked',
    () => undefined,
    () => ({ bytes: 2 ** 60 }),
    {
      ...diskCalls,
      free: () => {
        throw Object.assign(new Error('not there'), { code: 'ENOSYS' });
      },
    },
  );
});
