import { createHash } from 'node:crypto';

/** sha256 of the parts laid end to end, in hex. */
export const sha256 = (...parts: readonly Uint8Array[]): string => {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part);
  return hash.digest('hex');
};
