/** A style's or a motif's own parameters as flags: `--sides 6` stands for `--set sides=6`. */

/** What is asked of a command. */
interface Known {
  name(): string;
  readonly options: readonly { readonly long?: string | undefined }[];
}

/** The commands whose first argument has parameters, and where these are listed. */
const PARAMETERS: Readonly<Record<string, (id: string) => Promise<readonly string[]>>> = {
  box: async id => names((await import('../styles/index.js')).STYLES, id),
  decor: async id => names((await import('../motifs/index.js')).MOTIFS, id),
};

const names = (
  all: readonly { readonly id: string; readonly params: Readonly<Record<string, unknown>> }[],
  id: string,
): readonly string[] => Object.keys(all.find(one => one.id === id)?.params ?? {});

/** What the style or motif of a command line calls its parameters, in words; nothing where it has none. */
export async function ownFlagsTold([command = '', ...rest]: readonly string[]): Promise<string> {
  const id = rest.find(text => !text.startsWith('-')) ?? '';
  const parameters = (await PARAMETERS[command]?.(id)) ?? [];
  if (parameters.length === 0) return '';
  return `The parameters of ${id}: ${parameters.map(name => `--${name}`).join(', ')}`;
}

/** Flags of the command itself stay as they are, and so does what nobody knows. */
export async function withOwnFlags(
  argv: readonly string[],
  commands: readonly Known[],
): Promise<readonly string[]> {
  const [command = '', ...rest] = argv;
  const known = commands.find(c => c.name() === command)?.options.map(o => o.long);
  const parametersOf = PARAMETERS[command];
  if (!known || !parametersOf) return argv;
  const strange = (text: string) => text.startsWith('--') && !known.includes(text.split('=')[0]!);
  const id = rest.find(text => !text.startsWith('-'));
  if (id === undefined || !rest.some(strange)) return argv;
  const parameters = await parametersOf(id);
  const out: string[] = [command];
  for (let i = 0; i < rest.length; i++) {
    const text = rest[i]!;
    const [, name = '', value] = /^--([^=]+)(?:=(.*))?$/s.exec(text) ?? [];
    if (!strange(text) || !parameters.includes(name)) out.push(text);
    else out.push('--set', `${name}=${value ?? rest[++i] ?? ''}`);
  }
  return out;
}
