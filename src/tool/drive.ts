/** A drawing whose lines are already in order, driven by a blade. */
import type { Blade, DrawingLayer, Operation } from '../model.js';
import { compensatePaths } from './compensate.js';
import { type TipError, tipError } from './tip-error.js';

/** Operations that the swivelling blade does. */
export const BY_BLADE: ReadonlySet<Operation> = new Set(['perforate', 'cut']);

export interface Driven {
  readonly layers: readonly DrawingLayer[];
  /** Absent where the file does not allow for the blade. */
  readonly tip?: TipError;
}

/** Order and starts are kept: only what the blade does is allowed for, where the file is to do so. */
export function driveLayers(layers: readonly DrawingLayer[], blade: Blade): Driven {
  if (blade.compensatedBy !== 'file' || !(blade.offset > 0)) return { layers };
  let heading: number | undefined;
  const driven = layers.map(layer => {
    if (!BY_BLADE.has(layer.operation)) return layer;
    const made = compensatePaths(layer.paths, blade, heading);
    heading = made.headingAfter;
    return { ...layer, paths: made.driven };
  });
  const cut = (of: readonly DrawingLayer[]) =>
    of.filter(l => BY_BLADE.has(l.operation)).flatMap(l => l.paths);
  return { layers: driven, tip: tipError(cut(layers), cut(driven), blade.offset) };
}
