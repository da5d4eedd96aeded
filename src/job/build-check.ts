/** A box built once while the job is read: what its style refuses, and panels it does not have, are
 *  told at their places. */
import { type BoxStyle, findPanel, panelNames } from '../contracts.js';
import { roundForHand } from '../guide/index.js';
import type { BoxSpec, HandRounding, Inside, Net, ParamValues } from '../model.js';
import { ParamError } from '../params.js';
import type { AskedBox, AskedFeature, AskedSize, PlacedDecoration } from './asked.js';
import type { Context } from './context.js';
import type { Span } from './fault.js';
import { tellFeatureFaults } from './feature-check.js';
import { didYouMean } from './nearest.js';
import { insideFor } from './outside.js';
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
  readonly features: readonly AskedFeature[];
  /** Distance of the marks that all folds are to lie on, mm. */
  readonly round: number | undefined;
}

/** What the style is given. */
export interface BuiltBox {
  readonly spec: BoxSpec;
  readonly values: ParamValues;
  readonly rounding?: HandRounding;
}

/** The size and parameters that the style is given, or nothing when it was told why there are none. */
export function buildBox(c: Context, box: BoxToBuild): BuiltBox | undefined {
  try {
    const spec = specOf(c, box);
    if (!spec) return undefined;
    const { values } = box.params;
    const built: BuiltBox =
      box.round === undefined
        ? { spec, values }
        : roundForHand(box.style, spec, values, box.round, box.thickness);
    const nets = box.style.build(built.spec, built.values as typeof values);
    tellMissingPanels(c, box, nets);
    tellFeatureFaults(c, nets, box.style.id, box.features, whereOf(box));
    return built;
  } catch (error) {
    if (!(error instanceof ParamError)) throw error;
    tellParamError(c.r, error, placeOf(box, error.param), box.style, whereOf(box));
    return undefined;
  }
}

const whereOf = ({ name }: BoxToBuild) => (name ? `${name}: ` : '');

function specOf(c: Context, { size, style, params, thickness }: BoxToBuild): BoxSpec | undefined {
  const [length, width, height] = size.sides;
  const asked: Inside = { length, width, height };
  if (size.measure === 'creases') return { inside: asked, thickness: 0 };
  if (size.measure === 'inside') return { inside: asked, thickness };
  const spec = insideFor(asked, style, params.values, thickness);
  if (spec) return spec;
  if (!style.room) {
    return c.r.fault(
      size.at,
      `outside: ${style.id} is no closed box, so no inside was found for this size over all`,
      { hint: 'give its inside' },
    );
  }
  const paper = `its paper is ${inUnit(thickness, c.r.unit)} thick`;
  return c.r.fault(
    size.at,
    `outside: no inside was found that makes a ${style.id} of this size: ${paper}`,
    {
      hint: 'make the box larger or the paper thinner, or give its inside',
    },
  );
}

/** Where the thing stands that a style's fault is about. */
function placeOf({ asked, size, params }: BoxToBuild, param: string): Span {
  const given = params.places.get(param);
  if (given) return given;
  if (param === 'length' || param === 'width' || param === 'height')
    return size.parts?.[param] ?? size.at;
  if (param === 'round') return asked.round?.at ?? size.at;
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
