/**
 * Writes a folder of many files in a process of its own, which is to be killed:
 * `MODULES OUT SOURCE [CALL COUNT]`. With a call of the system it kills itself just before the call is
 * made for that time.
 */
import process from 'node:process';

const [modules, out, source, call, count] = process.argv.slice(2);
const { FolderDraft } = await import(`${modules}/files/folder-draft.js`);
const { diskCalls } = await import(`${modules}/files/folder-calls.js`);

let made = 0;
const calls = { ...diskCalls };
if (call !== undefined) {
  calls[call] = (...args) => {
    made += 1;
    if (made === Number(count)) process.kill(process.pid, 'SIGKILL');
    return diskCalls[call](...args);
  };
}

const size = 64 * 1024;
const files = Array.from({ length: 60 }, (_, i) => ({
  path: `deep/${i % 7}/${i}.wav`,
  pieces: [{ kind: 'copy', path: source, start: 0, length: size, size }],
}));
const list = {
  schema: 'keepset/trim@1',
  files: files.map(({ path }) => ({ path, bytes: size })),
};
const bytes = new TextEncoder().encode(JSON.stringify(list));

process.stdout.write('ready\n');
const draft = await FolderDraft.open(out, { force: true, inputs: [source], bytes: 0 }, calls);
for (const file of files) await draft.write(file);
await draft.write({ path: 'trim.json', pieces: [{ kind: 'bytes', bytes }] });
await draft.finish();
process.stdout.write('done\n');
