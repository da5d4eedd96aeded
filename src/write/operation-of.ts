/** Which operation a foreign file's path is for, by the name or the colour it was given. */
import type { Convention, Operation } from '../model.js';
import { OPERATIONS } from '../model.js';
import { hexOf } from '../units/colour.js';

/** A group's or layer's name that is an operation's, whatever its case. */
export function operationByName(name: string | null | undefined): Operation | undefined {
  const plain = name?.trim().toLowerCase();
  return OPERATIONS.find(o => o === plain);
}

export function operationByColour(
  colour: string | undefined,
  convention: Convention | undefined,
): Operation | undefined {
  const hex = hexOf(colour);
  if (hex === undefined || !convention) return undefined;
  return OPERATIONS.find(o => convention.operations[o].colour.toLowerCase() === hex);
}

/** By AutoCAD colour index. */
export function operationByAci(
  aci: number | undefined,
  convention: Convention | undefined,
): Operation | undefined {
  if (aci === undefined || !convention) return undefined;
  return OPERATIONS.find(o => convention.operations[o].aci === Math.abs(aci));
}
