import type { CommandTree, Completed, CompletedOption } from './command-tree.ts';

/** A colon parts a specification of zsh. */
const quoted = (text: string): string => text.replaceAll(':', '\\:');

const action = (value: Completed): string => {
  if (value.kind === 'words') return `(${value.words.join(' ')})`;
  if (value.kind === 'file') return '_files';
  return value.kind === 'folder' ? '_files -/' : ' ';
};

/** One specification of _arguments for each name of an option; it may come again. */
const optionLines = ({ long, short, about, value }: CompletedOption): readonly string[] =>
  [short, long]
    .filter((name) => name !== null)
    .map((name) => {
      const takes = value === null ? '' : `:value:${action(value)}`;
      const joined = value !== null && name.startsWith('--') ? '=' : '';
      return `      '*${name}${joined}[${quoted(about)}]${takes}'`;
    });

/** A function for zsh (its manual, "Completion System": _arguments and _describe). */
export const write = ({ name, options, commands }: CommandTree): string => `#compdef ${name}
# ${name}: completion for zsh
_${name}() {
  local -a commands
  commands=(
${commands.map((one) => `    '${one.name}:${quoted(one.about)}'`).join('\n')}
  )
  if ((CURRENT == 2)); then
    if [[ $words[CURRENT] == -* ]]; then
      _arguments \\
${options.flatMap(optionLines).join(' \\\n')}
    else
      _describe command commands
    fi
    return
  fi
  local command=$words[2]
  shift words
  ((CURRENT--))
  case $command in
${commands
  .map(
    (one) => `    ${one.name})
      _arguments \\
${[...one.options.flatMap(optionLines), `      '*:argument:${action(one.argument)}'`].join(' \\\n')}
      ;;`,
  )
  .join('\n')}
  esac
}
if [[ $funcstack[1] == _${name} ]]; then
  _${name} "$@"
else
  compdef _${name} ${name}
fi
`;
