/** Drawings whose lines are already in order, driven by a blade or a beam. */
import type { Blade, DrawingLayer, Folding, Operation, Path } from '../model.js';
import { compensatePaths } from './compensate.js';
import { kerfPaths } from './kerf.js';
import { type TipError, tipError } from './tip-error.js';

/** The operations that the cutting tool does: folds too, where nothing else makes them. */
export const bladeDoes = (folds: Folding['by']): readonly Operation[] =>
  folds === 'perforation' || folds === 'light-cut'
    ? ['score', 'perforate', 'cut']
    : ['perforate', 'cut'];

export interface Driven {
  readonly layers: readonly DrawingLayer[];
  /** Absent where the file does not allow for a swivelling blade. */
  readonly tip?: TipError;
}

/** Drives one layer after another: a lifted blade keeps the heading that the last one left it with. */
export interface Driver {
  drive(operation: Operation, paths: readonly Path[]): readonly Path[];
  /** Cut-outs that a beam cannot enter, so far. */
  readonly lost: number;
}

/** Whether the file allows for the blade's offset, or the beam's kerf. */
export const inFile = ({ compensatedBy, offset, kerf = 0 }: Blade): boolean =>
  compensatedBy === 'file' && (offset > 0 || kerf > 0);

export function driverOf(blade: Blade, folds: Folding['by']): Driver {
  const ours = bladeDoes(folds);
  let heading: number | undefined;
  let lost = 0;
  return {
    drive(operation, paths) {
      if (!inFile(blade) || !ours.includes(operation)) return paths;
      if (blade.kerf !== undefined && blade.kerf > 0) {
        // A fold is marked where it is: nothing comes loose along it.
        if (operation === 'score') return paths;
        const made = kerfPaths(paths, blade.kerf);
        lost += made.lost;
        return made.driven;
      }
      const made = compensatePaths(paths, blade, heading);
      heading = made.headingAfter;
      return made.driven;
    },
    get lost() {
      return lost;
    },
  };
}

/** Order and starts are kept: only what the cutting tool does is allowed for, where the file is to. */
export function driveLayers(
  layers: readonly DrawingLayer[],
  blade: Blade,
  folds: Folding['by'] = 'tool',
): Driven {
  if (!inFile(blade)) return { layers };
  const driver = driverOf(blade, folds);
  const driven = layers.map(layer => ({
    ...layer,
    paths: driver.drive(layer.operation, layer.paths),
  }));
  if (!(blade.offset > 0)) return { layers: driven };
  const ours = bladeDoes(folds);
  const cut = (of: readonly DrawingLayer[]) =>
    of.filter(l => ours.includes(l.operation)).flatMap(l => l.paths);
  return { layers: driven, tip: tipError(cut(layers), cut(driven), blade.offset) };
}
