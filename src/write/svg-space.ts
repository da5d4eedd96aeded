/** How an SVG's own units and transforms map to the sheet: millimetres, y up. */
import { compose, IDENTITY, rotation, scaling, translation } from '../geom/index.js';
import type { Affine } from '../model.js';
import { ReadError } from './read-error.js';

/** Millimetres in each unit: CSS Values and Units, "Absolute lengths". */
const MM: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  q: 0.25,
  in: 25.4,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
  px: 25.4 / 96,
  '': 25.4 / 96,
};
export const PX_MM = 25.4 / 96;

const NUMBER = '[+-]?(?:\\d+\\.?\\d*|\\.\\d+)(?:[eE][+-]?\\d+)?';
const LENGTH = new RegExp(`^\\s*(${NUMBER})\\s*(mm|cm|q|in|pt|pc|px|%)?\\s*$`, 'i');

/** A length with its unit, in mm; `undefined` for a share (%) or nothing. */
export function lengthMm(text: string | null, where: string): number | undefined {
  if (text === null || text.trim() === '' || text.trim() === 'auto') return undefined;
  const [, value, unit] = LENGTH.exec(text) ?? [];
  const mm = Number(value) * (MM[(unit ?? '').toLowerCase()] ?? 1);
  if (value === undefined || !Number.isFinite(mm)) {
    throw new ReadError(
      `${JSON.stringify(text.slice(0, 40))} is no length`,
      where,
      'write it as 210mm',
    );
  }
  return unit === '%' ? undefined : mm;
}

/** The inside of a viewport, in its own user units: what shares (%) are of. */
export interface Frame {
  readonly width: number;
  readonly height: number;
}

const SHARE = new RegExp(`^\\s*(${NUMBER})\\s*%\\s*$`);

/** A length in user units; a share is of `whole`. `undefined` for nothing. */
export function lengthUnits(text: string | null, whole: number, where: string): number | undefined {
  const [, share] = SHARE.exec(text ?? '') ?? [];
  if (share !== undefined) return (Number(share) / 100) * whole;
  const mm = lengthMm(text, where);
  return mm === undefined ? undefined : mm / PX_MM;
}

export interface Page {
  readonly width: number;
  readonly height: number;
  /** From the file's outermost user units to the sheet. */
  readonly toSheet: Affine;
  readonly frame: Frame;
  /** Millimetres of a user unit; along the width, where it has two. */
  readonly unit: number;
  /** The file says its size in physical units. */
  readonly said: boolean;
  readonly notes: readonly string[];
}

/** The page from the root's attributes. Without a physical size a unit is taken as 1/96 in. */
export function pageOf(attribute: (name: string) => string | null): Page {
  const notes: string[] = [];
  const width = lengthMm(attribute('width'), 'width of <svg>');
  const height = lengthMm(attribute('height'), 'height of <svg>');
  const box = viewBox(attribute('viewBox'));
  const w = width ?? (box ? box.width * PX_MM : undefined);
  const h = height ?? (box ? box.height * PX_MM : undefined);
  if (w === undefined || h === undefined) {
    throw new ReadError(
      'neither width and height nor a viewBox: its size is unknown',
      '<svg>',
      'give it width and height in mm',
    );
  }
  if (!(w > 0 && h > 0)) throw new ReadError(`a page of ${w} × ${h} mm`, '<svg>', 'give it a size');
  const frame = box ?? { x: 0, y: 0, width: w / PX_MM, height: h / PX_MM };
  const { map, fitted } = viewportMap(frame, w, h, attribute('preserveAspectRatio'));
  if (fitted) {
    notes.push(
      'the page and its viewBox have different shapes: the drawing was fitted as SVG says',
    );
  }
  // A pixel is no size on paper: what a drawing program means by it is anybody's guess.
  const physical = (name: string) => /(?:mm|cm|q|in|pt|pc)\s*$/i.test(attribute(name) ?? '');
  const said =
    width !== undefined && height !== undefined && physical('width') && physical('height');
  return {
    width: w,
    height: h,
    toSheet: compose([1, 0, 0, -1, 0, h], map),
    frame,
    unit: map[0],
    said,
    notes,
  };
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** From a viewBox to a viewport of `w` by `h` at the origin (SVG 2, 8.2 "The viewBox attribute"). */
function viewportMap(box: Box, w: number, h: number, ratio: string | null) {
  let [kx, ky] = [w / box.width, h / box.height];
  let [dx, dy] = [0, 0];
  const fit = (ratio ?? 'xMidYMid meet').trim();
  // A hundredth of a percent is rounding in the file, not another shape.
  const fitted = Math.abs(kx / ky - 1) > 1e-4 && fit !== 'none';
  if (fitted) {
    const k = /slice/.test(fit) ? Math.max(kx, ky) : Math.min(kx, ky);
    dx = (w - box.width * k) * (/xMin/.test(fit) ? 0 : /xMax/.test(fit) ? 1 : 0.5);
    dy = (h - box.height * k) * (/YMin/.test(fit) ? 0 : /YMax/.test(fit) ? 1 : 0.5);
    [kx, ky] = [k, k];
  }
  const map: Affine = [kx, 0, 0, ky, dx - box.x * kx, dy - box.y * ky];
  return { map, fitted };
}

export interface Viewport extends Frame {
  /** From the user units inside to those around it. */
  readonly map: Affine;
}

/** A viewport inside a drawing: that of an `<svg>`, or of a `<symbol>` where it is used. `size` is asked
 *  first for its width and height; a share is of the viewport around it, which is also what is meant where
 *  there is none. Nothing where it has no size, and so shows nothing. */
export function innerViewport(
  inner: (name: string) => string | null,
  size: (name: string) => string | null,
  around: Frame,
): Viewport | undefined {
  const box = viewBox(inner('viewBox'));
  const side = (name: 'width' | 'height') => sideOf(size(name) ?? inner(name), around[name], name);
  const [width, height] = [side('width'), side('height')];
  if (!(width > 0 && height > 0)) return undefined;
  if (!box) return { map: IDENTITY, width, height };
  const { map } = viewportMap(box, width, height, inner('preserveAspectRatio'));
  return { map, width: box.width, height: box.height };
}

/** In user units. */
function sideOf(text: string | null, whole: number, name: string): number {
  return lengthUnits(text, whole, name) ?? whole;
}

function viewBox(text: string | null) {
  if (text === null) return undefined;
  const [x, y, width, height, more] = text.trim().split(ARGUMENTS).map(Number);
  const good =
    x !== undefined && y !== undefined && more === undefined && width! > 0 && height! > 0;
  if (!good || ![x, y, width!, height!].every(Number.isFinite)) {
    throw new ReadError(
      `viewBox ${JSON.stringify(text.slice(0, 60))} is not four numbers`,
      '<svg>',
      'write it as viewBox="0 0 210 297"',
    );
  }
  return { x, y, width: width!, height: height! };
}

/** Between numbers: spaces, a comma, or a sign that begins the next. */
const ARGUMENTS = /\s*,\s*|\s+|(?<=[\d.])(?=[+-])/;
const STEP = /^[\s,]*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^()]*)\)/;

/** An element's `transform`, outermost step first. Throws `ReadError` on anything that is not one. */
export function transformOf(text: string | null, where: string): Affine {
  let rest = text ?? '';
  let whole = IDENTITY;
  for (let found = STEP.exec(rest); found; found = STEP.exec(rest)) {
    const given = found[2]!.trim().split(ARGUMENTS).map(Number);
    const step = stepOf(found[1]!, given);
    if (!step?.every(Number.isFinite)) break;
    whole = compose(whole, step);
    rest = rest.slice(found[0].length);
  }
  if (/[^\s,]/.test(rest)) {
    throw new ReadError(
      `transform ${JSON.stringify(rest.trim().slice(0, 40))} is not one that SVG knows`,
      where,
      'draw the shape in its place, without transform',
    );
  }
  return whole;
}

function stepOf(name: string, n: readonly number[]): Affine | undefined {
  const [a = 0, b, c, d, e, f] = n;
  const rad = (deg: number) => (deg * Math.PI) / 180;
  const [least, most] = { matrix: [6, 6], rotate: [1, 3], translate: [1, 2], scale: [1, 2] }[
    name
  ] ?? [1, 1];
  if (n.length < least! || n.length > most!) return undefined;
  switch (name) {
    case 'matrix':
      return [a, b!, c!, d!, e!, f!];
    case 'translate':
      return translation(a, b ?? 0);
    case 'scale':
      return scaling(a, b ?? a);
    case 'rotate':
      return rotation(rad(a), [b ?? 0, c ?? 0]);
    case 'skewX':
      return [1, 0, Math.tan(rad(a)), 1, 0, 0];
    default:
      return [1, Math.tan(rad(a)), 0, 1, 0, 0];
  }
}
