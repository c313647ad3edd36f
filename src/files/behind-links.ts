import { realpath } from 'node:fs/promises';

/** The file that a path leads to through links, so that what is written anew is that one; else the path. */
export const behindLinks = async (path: string): Promise<string> => {
  try {
    return await realpath(path);
  } catch {
    return path;
  }
};
