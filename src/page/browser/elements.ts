/** Elements with their attributes and what is in them. */
type Attributes = Readonly<Record<string, string>>;

export function element<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Attributes = {},
  ...children: (Node | string)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

export function svgElement(
  name: string,
  attributes: Attributes = {},
  ...children: (Node | string)[]
): SVGElement {
  const made = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

export function button(label: string, press: () => void, more: Attributes = {}): HTMLButtonElement {
  const made = element('button', { type: 'button', ...more }, label);
  made.addEventListener('click', press);
  return made;
}
