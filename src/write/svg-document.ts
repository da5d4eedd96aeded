/** SVG documents composed with svg.js. In Node it stands on xmldom, by the few things of a browser that it
 *  asks for; nothing of it is left behind when the composing is done. */
import type { Svg } from '@svgdotjs/svg.js';

const SVG_NAMESPACE = 'http://www.w3.org/2000/svg';

/**
 * Runs `compose` on an empty `<svg>` and gives the document's text. Identical calls give identical
 * texts as long as `compose` names its own ids (svg.js counts up through the whole run otherwise).
 */
export async function composeSvg(compose: (root: Svg) => void): Promise<string> {
  const [{ DOMImplementation, Element, Node, XMLSerializer }, { SVG, withWindow }] =
    await Promise.all([import('@xmldom/xmldom'), import('@svgdotjs/svg.js')]);
  const document = new DOMImplementation().createDocument(SVG_NAMESPACE, 'svg', null);
  const element = document.documentElement!;
  // svg.js looks its <defs> up; xmldom has no selectors, and a name is all that is asked for.
  Object.assign(element, {
    querySelector: (name: string) => element.getElementsByTagName(name).item(0),
  });
  const window = { document, Node, Element, SVGElement: Element };
  withWindow(window as never, () => {
    compose(SVG(element as never) as unknown as Svg);
  });
  return `${new XMLSerializer().serializeToString(document)}\n`;
}
