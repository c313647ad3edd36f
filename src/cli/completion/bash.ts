import type { CommandTree, Completed, CompletedOption } from './command-tree.ts';

const names = ({ long, short }: CompletedOption): readonly string[] =>
  [short, long].filter((name) => name !== null);

/** What fills COMPREPLY. */
const reply = (value: Completed): string => {
  if (value.kind === 'words') {
    return `COMPREPLY=($(compgen -W '${value.words.join(' ')}' -- "$current"))`;
  }
  if (value.kind === 'free') return 'COMPREPLY=()';
  const which = value.kind === 'file' ? '-f' : '-d';
  // A name may hold blanks; bash 3 has neither compopt nor mapfile.
  return `compopt -o filenames 2>/dev/null; local IFS=$'\\n'; COMPREPLY=($(compgen ${which} -- "$current"))`;
};

/** Values of options, by command: `command:--option`. */
const valueCases = ({ commands }: CommandTree): readonly string[] =>
  commands.flatMap(({ name, options }) =>
    options.flatMap((option) =>
      option.value === null
        ? []
        : [
            `    ${names(option)
              .map((flag) => `${name}:${flag}`)
              .join('|')}) ${reply(option.value)}; return ;;`,
          ],
    ),
  );

/** A script for bash (Bash Reference Manual, Programmable Completion). */
export const write = (tree: CommandTree): string => {
  const { name, commands, options } = tree;
  const first = [...commands.map((one) => one.name), ...options.flatMap(names)].join(' ');
  return `# ${name}: completion for bash
_${name}() {
  local current=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]} command=\${COMP_WORDS[1]}
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    COMPREPLY=($(compgen -W '${first}' -- "$current"))
    return
  fi
  # bash takes --option=value apart at the sign.
  if [[ $current == '=' ]]; then
    current=''
  elif [[ $before == '=' ]]; then
    before=\${COMP_WORDS[COMP_CWORD-2]}
  fi
  case $command:$before in
${valueCases(tree).join('\n')}
  esac
  if [[ $current == -* ]]; then
    case $command in
${commands
  .map(
    (one) =>
      `      ${one.name}) COMPREPLY=($(compgen -W '${one.options.flatMap(names).join(' ')}' -- "$current")) ;;`,
  )
  .join('\n')}
    esac
    return
  fi
  case $command in
${commands.map((one) => `    ${one.name}) ${reply(one.argument)} ;;`).join('\n')}
  esac
}
complete -F _${name} ${name}
`;
};
