/** A box built once while the job is read: what its style refuses, and panels it does not have, are
 *  told at their places. */
import { type BoxStyle, findPanel, panelNames } from '../contracts.js';
import type { BoxSpec, Inside, Net } from '../model.js';
import { ParamError } from '../params.js';
import type { AskedBox, AskedSize, PlacedDecoration } from './asked.js';
import type { Context } from './context.js';
import type { Span } from './fault.js';
import { didYouMean } from './nearest.js';
import { inUnit } from './quantities.js';
import { cut, listed } from './reading.js';
import { type Params, tellParamError } from './values.js';

export interface BoxToBuild {
  readonly name: string | undefined;
  readonly asked: AskedBox;
  readonly style: BoxStyle;
  readonly size: AskedSize;
  readonly params: Params;
  readonly thickness: number;
  readonly decorations: readonly PlacedDecoration[];
}

/** The size that the style is given, or nothing when it was told why there is none. */
export function buildBox(c: Context, box: BoxToBuild): BoxSpec | undefined {
  const spec = specOf(c, box);
  if (!spec) return undefined;
  let nets: readonly Net[];
  try {
    nets = box.style.build(spec, box.params.values);
  } catch (error) {
    if (!(error instanceof ParamError)) throw error;
    const place = placeOf(box, error.param);
    tellParamError(c.r, error, place, box.style, box.name ? `${box.name}: ` : '');
    return undefined;
  }
  tellMissingPanels(c, box, nets);
  return spec;
}

function specOf(c: Context, box: BoxToBuild): BoxSpec | undefined {
  const { measure, sides, at } = box.size;
  const [length, width, height] = sides;
  const asked: Inside = { length, width, height };
  const t = box.thickness;
  if (measure === 'creases') return { inside: asked, thickness: 0 };
  if (measure === 'inside') return { inside: asked, thickness: t };
  // Common practice, no source: a wall each way takes one thickness.
  const inside = { length: length - 2 * t, width: width - 2 * t, height: height - 2 * t };
  if (Math.min(inside.length, inside.width, inside.height) > 0) return { inside, thickness: t };
  c.r.fault(
    at,
    `outside: the paper alone is ${inUnit(2 * t, c.r.unit)} thick, nothing is left inside`,
    {
      hint: 'make the box larger or the paper thinner',
    },
  );
  return undefined;
}

/** Where the thing stands that a style's fault is about. */
function placeOf({ asked, size, params }: BoxToBuild, param: string): Span {
  const given = params.places.get(param);
  if (given) return given;
  if (param === 'length' || param === 'width' || param === 'height')
    return size.parts?.[param] ?? size.at;
  if (param === 'thickness' || param === 'caliper') return asked.stock?.at ?? size.at;
  return size.at;
}

function tellMissingPanels(c: Context, box: BoxToBuild, nets: readonly Net[]): void {
  const panels = panelNames(nets);
  for (const { decoration, on } of box.decorations) {
    if (findPanel(nets, decoration.panel)) continue;
    const hint = didYouMean(decoration.panel, panels);
    c.r.fault(on, `${box.style.id} has no panel "${cut(decoration.panel)}"`, {
      allowed: listed(panels),
      ...(hint ? { hint } : {}),
    });
  }
}
