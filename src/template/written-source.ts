import type { InstrumentSource } from './template.ts';

/**
 * An instrument's source as people write it.
 *
 * @example writtenSource(celesta) // 'banks/keys.sf2#0:8'
 */
export const writtenSource = (source: InstrumentSource): string => {
  const preset = source.kind === 'soundfont' ? source.preset : null;
  if (preset === null) return source.path;
  return `${source.path}#${String(preset.bank)}:${String(preset.program)}`;
};
