/** The last part of a path, without its ending: how instruments are called. */
export const fileName = (path: string): string =>
  path.slice(path.lastIndexOf('/') + 1).replace(/(?<=.)\.[^.]*$/, '');
