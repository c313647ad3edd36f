/** `/…`, or a drive of Windows. */
const absolute = /^(?:\/|[a-z]:)/iu;

/**
 * The path of a file that a template names relative to its own folder.
 *
 * @param template the template as the user named it, with `/`
 * @example beside('score/keepset.yaml', 'tables/harp.csv') // 'score/tables/harp.csv'
 */
export const beside = (template: string, path: string): string =>
  absolute.test(path) ? path : template.slice(0, template.lastIndexOf('/') + 1) + path;
