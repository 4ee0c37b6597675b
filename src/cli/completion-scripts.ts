/** Completion scripts as text, from a plain tree of commands. */

export const SHELLS = ['bash', 'zsh', 'fish'] as const;
export type Shell = (typeof SHELLS)[number];

export interface CompletionOption {
  readonly long: string;
  readonly about: string;
  /** Known values; empty where any value, or a file, can stand. */
  readonly values: readonly string[];
  readonly takesValue: boolean;
}

export interface CompletionTree {
  /** Names of the commands that lead here; empty for the program itself. */
  readonly path: readonly string[];
  readonly about: string;
  readonly words: readonly string[];
  readonly options: readonly CompletionOption[];
  readonly children: readonly CompletionTree[];
}

const flat = (tree: CompletionTree): CompletionTree[] => [tree, ...tree.children.flatMap(flat)];

/** Options of the program itself can stand behind every command. */
const allOptions = (tree: CompletionTree, root: CompletionTree): readonly CompletionOption[] =>
  tree === root
    ? root.options
    : [...tree.options, ...root.options.filter(({ long }) => long !== '--help' && long !== '--version')];

/** `norms show` -> what the script's `path` variable holds there; the children tell which words lengthen it. */
function bashCases(root: CompletionTree): string {
  return flat(root)
    .map((tree) => {
      const options = allOptions(tree, root);
      const values = options
        .filter((option) => option.values.length > 0)
        .map((option) => `      ${option.long}) words="${option.values.join(' ')}"; only=1 ;;`);
      const files = options.filter((option) => option.takesValue && option.values.length === 0).map(({ long }) => long);
      const ends = files.length === 0 ? [] : [`      ${files.join('|')}) words=""; only=1 ;;`];
      return `    "${tree.path.join(' ')}")
      words="${[...tree.words, ...options.map(({ long }) => long)].join(' ')}"
      case "$previous" in
${[...values, ...ends].join('\n')}
      esac ;;`;
    })
    .join('\n');
}

/** Finds the command path on the line so far, then offers its words; files where nothing else fits. */
function bashScript(root: CompletionTree): string {
  const paths = flat(root)
    .filter(({ path }) => path.length > 0)
    .map(({ path }) => `"${path.join(' ')}"`)
    .join('|');
  return `# Completion of footing for bash, made by "footing completion bash".
_footing() {
  local current="\${COMP_WORDS[COMP_CWORD]}" previous="\${COMP_WORDS[COMP_CWORD-1]}" path="" word longer words="" only=""
  for word in "\${COMP_WORDS[@]:1:COMP_CWORD-1}"; do
    longer="\${path:+$path }$word"
    case "$longer" in ${paths}) path="$longer" ;; esac
  done
  case "$path" in
${bashCases(root)}
  esac
  COMPREPLY=($(compgen -W "$words" -- "$current"))
  if [ "\${#COMPREPLY[@]}" -eq 0 ]; then COMPREPLY=($(compgen -f -- "$current")); fi
}
complete -o filenames -F _footing footing
`;
}

/** zsh runs the bash function through its own compatibility layer: one logic, one set of words. */
function zshScript(root: CompletionTree): string {
  return `#compdef footing
# Completion of footing for zsh, made by "footing completion zsh".
autoload -U +X bashcompinit && bashcompinit
${bashScript(root).split('\n').slice(1).join('\n')}`;
}

const quoted = (text: string): string => `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;

function fishScript(root: CompletionTree): string {
  const lines = flat(root).flatMap((tree) => {
    const seen = tree.path.map((name) => `__fish_seen_subcommand_from ${name}`).join('; and ');
    const names = tree.children.map((child) => child.path.at(-1) ?? '').join(' ');
    const here = [seen, names === '' ? '' : `not __fish_seen_subcommand_from ${names}`]
      .filter((part) => part !== '')
      .join('; and ');
    const condition = here === '' ? '' : ` -n ${quoted(here)}`;
    const children = tree.children.map(
      (child) => `complete -c footing${condition} -f -a ${quoted(child.path.at(-1) ?? '')} -d ${quoted(child.about)}`,
    );
    const plain = tree.words.filter((word) => !tree.children.some((child) => child.path.at(-1) === word));
    const words = plain.length === 0 ? [] : [`complete -c footing${condition} -a ${quoted(plain.join(' '))}`];
    const options = tree.options.map(({ long, about, values, takesValue }) => {
      const value = takesValue ? (values.length === 0 ? ' -r' : ` -x -a ${quoted(values.join(' '))}`) : '';
      return `complete -c footing${tree === root ? '' : condition} -l ${long.replace(/^--/, '')}${value} -d ${quoted(about)}`;
    });
    return [...children, ...words, ...options];
  });
  return `# Completion of footing for fish, made by "footing completion fish".\n${lines.join('\n')}\n`;
}

export function renderCompletion(shell: Shell, root: CompletionTree): string {
  switch (shell) {
    case 'bash':
      return bashScript(root);
    case 'zsh':
      return zshScript(root);
    case 'fish':
      return fishScript(root);
  }
}
