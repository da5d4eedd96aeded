import { blade } from './blade.js';
import type { CardKind } from './card.js';
import { fit } from './fit.js';
import { fold } from './fold.js';
import { kerf } from './kerf.js';
import { registration } from './registration.js';
import { scale } from './scale.js';

export type { Card, CardAsk, CardKind, OwnLines } from './card.js';

/** The test cards, in the order in which a new machine wants them. */
export const CARDS: readonly CardKind[] = [scale, blade, fold, fit, registration, kerf];
