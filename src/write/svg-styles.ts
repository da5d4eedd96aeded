/** Style sheets inside a drawing, as far as drawing programs write them: names, classes and ids. */

type Attribute = (name: string) => string | null;

/** The properties of an element: its own style first, then the sheets', then its attributes. */
export type Rules = (
  attribute: Attribute,
  element: string,
) => (property: string) => string | undefined;

type Pairs = ReadonlyMap<string, string>;

function pairsOf(text: string | null): Map<string, string> {
  const pairs = (text ?? '').split(';').map(p => p.split(':').map(s => s.trim()));
  return new Map(
    pairs.flatMap(([k, v]) =>
      k && v ? [[k, v.replace(/\s*!important$/, '')] as [string, string]] : [],
    ),
  );
}

/** Selectors of one name, class or id. Those that say more are left alone: they match nothing here. */
export function readRules(sheets: readonly string[]): Rules {
  const bySelector = new Map<string, Map<string, string>>();
  for (const sheet of sheets) {
    const bare = sheet.replace(/\/\*[\s\S]*?\*\//g, '');
    for (const [, selectors, body] of bare.matchAll(/([^{}]+)\{([^{}]*)\}/g)) {
      for (const selector of selectors!.split(',').map(s => s.trim())) {
        if (!/^[.#]?[\w-]+$/.test(selector)) continue;
        const known = bySelector.get(selector) ?? new Map<string, string>();
        for (const [k, v] of pairsOf(body!)) known.set(k, v);
        bySelector.set(selector, known);
      }
    }
  }
  return (attribute, element) => {
    const own = pairsOf(attribute('style'));
    const classes = (attribute('class') ?? '').split(/\s+/).filter(Boolean);
    const id = attribute('id');
    const order: (Pairs | undefined)[] = [
      own,
      id === null ? undefined : bySelector.get(`#${id}`),
      ...classes.reverse().map(c => bySelector.get(`.${c}`)),
      bySelector.get(element),
    ];
    return property => {
      for (const pairs of order) {
        const value = pairs?.get(property);
        if (value !== undefined) return value;
      }
      return attribute(property) ?? undefined;
    };
  };
}
