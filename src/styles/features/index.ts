/** What any suitable panel of any style can take. */
import type { Feature } from '../../contracts.js';
import { closure } from './closures.js';
import { corners } from './corners.js';
import { hangingHole, ribbon } from './holes.js';
import { glueAreas, hingeMarks } from './marks.js';
import { thumbNotch } from './notch.js';
import { slitLock } from './slit-lock.js';
import { tearStrip } from './tear-strip.js';
import { window } from './window.js';

export { applyFeature, applyFeatures, type FeaturedNets, type FeatureKit } from './apply.js';

/** All features, in the order in which they are listed. */
export const FEATURES: readonly Feature[] = [
  window,
  thumbNotch,
  hangingHole,
  ribbon,
  corners,
  tearStrip,
  slitLock,
  closure,
  glueAreas,
  hingeMarks,
];
