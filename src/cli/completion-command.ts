import { Argument, Command } from 'commander';
import { exitCodesHelp } from './exit-codes.ts';
import type { Host } from './streams.ts';

const shells = ['bash', 'zsh', 'fish'] as const;

type Shell = (typeof shells)[number];

/** @param program gives the whole program: by then all commands are there */
export const completionCommand = (host: Host, program: () => Command): Command =>
  new Command('completion')
    .description('Print a completion script for a shell.')
    .addArgument(new Argument('<shell>', 'which one').choices([...shells]))
    .addHelpText(
      'after',
      `
Examples:
  source <(keepset completion bash)             for this window
  keepset completion bash > ~/.local/share/bash-completion/completions/keepset
  keepset completion zsh > ~/.zsh/completions/_keepset
  keepset completion fish > ~/.config/fish/completions/keepset.fish

For zsh the folder must be in fpath before compinit runs, in ~/.zshrc:
  fpath=(~/.zsh/completions $fpath); autoload -U compinit; compinit
Write it again after an update of keepset.
${exitCodesHelp}`,
    )
    .action(async (shell: Shell) => {
      const { commandTree } = await import('./completion/command-tree.ts');
      const tree = commandTree(program());
      const { write } =
        shell === 'bash'
          ? await import('./completion/bash.ts')
          : shell === 'zsh'
            ? await import('./completion/zsh.ts')
            : await import('./completion/fish.ts');
      host.stdout.write(write(tree));
    });
