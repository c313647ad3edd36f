import { readFile } from 'node:fs/promises';
import { expect } from 'vitest';
import { runCommand } from './keepset.ts';
import type { Folder } from './material.ts';

/**
 * zsh completes only where somebody types. So one zsh types into another, at a pseudo terminal (its
 * manual, "The zsh/zpty Module"): a line, a tab, and a key that tells what was offered and empties the
 * line again. What is offered passes `compadd`, which is watched on its way.
 */
const typist = `
zmodload zsh/zpty
zpty inner zsh -f -i
hear() {
  local chunk
  heard=
  while zpty -r inner chunk; do
    heard+=$chunk
    [[ $heard == *"$1"* ]] && return
  done
  exit 1
}
zpty -w inner 'source ./inner.zsh; print -r -- REA""DY'
hear READY
while IFS= read -r line; do
  zpty -w -n inner "$line"$'\\t\\x14'
  hear '<end>'
done < lines.txt
zpty -d inner
`;

const inner = `
PS1=
autoload -U compinit
compinit -u -D
source ./_keepset
typeset -ga offered
compadd() {
  # With -O, -A or -D it only asks what would fit.
  if [[ " $* " != *\\ -[OAD]\\ * ]]; then
    local -a hits
    builtin compadd -O hits "$@"
    offered+=("\${hits[@]}")
  fi
  builtin compadd "$@"
}
tell() {
  print -rl -- "$BUFFER" "\${(@u)offered/#/ }" '' >> told.txt
  print -r -- '<e''nd>'
  offered=()
  zle kill-whole-line
}
zle -N tell
bindkey '^T' tell
bindkey '^I' complete-word
`;

export interface ZshOffer {
  /** The line after the tab. */
  readonly line: string;
  /** As zsh would insert them. */
  readonly offers: readonly string[];
}

/**
 * What zsh makes of each line when a tab is typed at its end.
 *
 * @param script the completion; it is written into the folder, in which all of it happens
 */
export const zshOffers = async (
  folder: Folder,
  script: string,
  lines: readonly string[],
): Promise<readonly ZshOffer[]> => {
  await folder.write({
    ...{ _keepset: script, 'inner.zsh': inner, 'typist.zsh': typist },
    'lines.txt': lines.map((line) => `${line}\n`).join(''),
  });
  const ran = await runCommand('zsh', ['-f', 'typist.zsh'], {
    cwd: folder.path,
    env: { TERM: 'xterm' },
  });
  expect(ran).toEqual({ code: 0, stdout: '', stderr: '' });
  const told = await readFile(folder.at('told.txt'), 'utf8');
  return told.split('\n\n').flatMap((one) => {
    const [line = '', ...offers] = one.split('\n');
    return one === '' ? [] : [{ line, offers: offers.map((offer) => offer.slice(1)) }];
  });
};
