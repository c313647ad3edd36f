import type { CommandTree, Completed, CompletedOption } from './command-tree.ts';

const words = (value: Completed): string =>
  value.kind === 'words' ? ` -a '${value.words.join(' ')}'` : '';

/** How a value is asked for: files only where they are meant. */
const valueFlags = (value: Completed): string => {
  if (value.kind === 'file') return ' -r -F';
  if (value.kind === 'folder') return " -x -a '(__fish_complete_directories)'";
  return ` -x${words(value)}`;
};

const optionLine = (name: string, when: string, option: CompletedOption): string => {
  const { long, short, about, value } = option;
  const flags = [
    ...(short === null ? [] : [`-s ${short.slice(1)}`]),
    ...(long === null ? [] : [`-l ${long.slice(2)}`]),
  ].join(' ');
  return `complete -c ${name} -n '${when}' ${flags}${value === null ? '' : valueFlags(value)} -d '${about}'`;
};

/** A script for fish (its documentation, the command "complete"). */
export const write = ({ name, options, commands }: CommandTree): string =>
  [
    `# ${name}: completion for fish`,
    `complete -c ${name} -f`,
    ...options.map((option) => optionLine(name, '__fish_use_subcommand', option)),
    ...commands.flatMap((command) => {
      const { argument } = command;
      const when = `__fish_seen_subcommand_from ${command.name}`;
      return [
        `complete -c ${name} -n __fish_use_subcommand -a ${command.name} -d '${command.about}'`,
        ...(argument.kind === 'file' ? [`complete -c ${name} -n '${when}' -F`] : []),
        ...(argument.kind === 'words'
          ? [`complete -c ${name} -n '${when}'${words(argument)}`]
          : []),
        ...command.options.map((option) => optionLine(name, when, option)),
      ];
    }),
    '',
  ].join('\n');
