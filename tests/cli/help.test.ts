import { PassThrough } from 'node:stream';
import { expect, test } from 'vitest';
import { buildProgram } from '../../src/cli/build-program.ts';
import { exitCodesHelp } from '../../src/cli/exit-codes.ts';

/** What a command prints as its help, all that is added included. */
const helpOf = (name: string): string => {
  const stream = new PassThrough();
  const stdout = stream as unknown as NodeJS.WriteStream;
  const program = buildProgram({ stdout, stderr: stdout, env: {} }, { code: 0 });
  const command = program.commands.find((one) => one.name() === name) ?? program;
  command.outputHelp();
  return (stream.read() as Buffer).toString();
};

const names = buildProgram(process, { code: 0 }).commands.map((command) => command.name());

test('there are commands to walk through', () => {
  expect(names.length).toBeGreaterThan(12);
});

test.each([...names, 'keepset'])('the help of %s has examples and exit codes', (name) => {
  const help = helpOf(name);
  expect(help).toContain('Examples:');
  const examples = help.match(/^ {2}(?:source <\()?keepset .*/gmu) ?? [];
  expect(examples.length).toBeGreaterThanOrEqual(3);
  if (name !== 'keepset') expect(examples.join('\n')).toContain(`keepset ${name}`);
  expect(help).toContain(exitCodesHelp);
  expect(help.split('\n').filter((line) => line.length > 80)).toEqual([]);
});

test('the first page fits a window of 50 lines', () => {
  expect(helpOf('keepset').trimEnd().split('\n').length).toBeLessThanOrEqual(50);
});
