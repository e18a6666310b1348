export type KnownOptions = { readonly flags: readonly string[]; readonly values: readonly string[] };
export type ReadArguments = {
  readonly flags: ReadonlySet<string>;
  readonly values: ReadonlyMap<string, string>;
  readonly files: readonly string[];
};

/**
 * Sorts a command's arguments into flags, options with a value (`--name value` or `--name=value`) and files.
 * A value may start with one dash (`--scale -3..3`); whatever follows `--` is a file.
 * @returns the parts, or the one line that says what is wrong.
 */
export function readArguments(args: readonly string[], known: KnownOptions): ReadArguments | { fault: string } {
  const [flags, values, files] = [new Set<string>(), new Map<string, string>(), new Array<string>()];
  for (let at = 0; at < args.length; at += 1) {
    const argument = args[at] ?? '';
    if (argument === '--') {
      files.push(...args.slice(at + 1));
      break;
    }
    if (!argument.startsWith('-') || argument === '-') {
      files.push(argument);
      continue;
    }
    const [name = '', ...rest] = argument.split('=');
    if (flags.has(name) || values.has(name)) return { fault: `The option ${name} is given twice.` };
    if (known.flags.includes(name)) {
      if (rest.length > 0) return { fault: `The option ${name} takes no value.` };
      flags.add(name);
    } else if (known.values.includes(name)) {
      const value = rest.length > 0 ? rest.join('=') : args[(at += 1)];
      if (value === undefined || value === '' || value.startsWith('--'))
        return { fault: `The option ${name} needs a value.` };
      values.set(name, value);
    } else {
      return { fault: `There is no option ${name}. Options: ${[...known.values, ...known.flags].join(', ')}.` };
    }
  }
  return files.length > 0 ? { flags, values, files } : { fault: 'Name at least one file.' };
}
