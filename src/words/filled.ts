/** A text with `{names}` in place of what is known later. */
export const filled = (text: string, values: Readonly<Record<string, string | number>>): string =>
  text.replace(/\{(\w+)\}/g, (brace, name: string) => String(values[name] ?? brace));
