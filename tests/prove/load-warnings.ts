import { fluidArguments, renderLimits } from './render.ts';
import { runLimited } from './run-limited.ts';

/**
 * What FluidSynth says on standard error while it loads a bank and plays a cue, line by line, each
 * once. Other words than warnings and errors are left out.
 */
export const loadWarnings = async (
  bank: string,
  cue: string,
  out: string,
): Promise<readonly string[]> => {
  const args = ['-ni', '-q', '-F', out, '-O', 's16', ...fluidArguments({}), bank, cue];
  const { ended, code, stderr } = await runLimited('fluidsynth', args, renderLimits);
  if (ended !== 'exit') throw new Error(`fluidsynth did not end by itself for ${bank}`);
  const lines = stderr.split('\n').filter((line) => /warning|error|panic/i.test(line));
  return [...new Set(code === 0 ? lines : [...lines, `error: ended with ${String(code)}`])];
};
