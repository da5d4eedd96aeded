import type { BoxStyle } from '../contracts.js';
import { bagTopper } from './bag-topper.js';
import { cone } from './cone.js';
import { crashBottom } from './crash-bottom.js';
import { cup } from './cup.js';
import { displayTray } from './display-tray.js';
import { divider } from './divider.js';
import { drum } from './drum.js';
import { envelope } from './envelope.js';
import { flipLid } from './flip-lid.js';
import { fourWallBurst } from './four-wall-burst.js';
import { gable } from './gable.js';
import { gableTop } from './gable-top.js';
import { gussetBag } from './gusset-bag.js';
import { heartBox } from './heart-box.js';
import { house } from './house.js';
import { lidAndBase } from './lid-and-base.js';
import { petalClose } from './petal-close.js';
import { pillow } from './pillow.js';
import { platform } from './platform.js';
import { pouch } from './pouch.js';
import { prism } from './prism.js';
import { pyramid } from './pyramid.js';
import { reverseTuck } from './reverse-tuck.js';
import { sleeveAndTray } from './sleeve-and-tray.js';
import { slice } from './slice.js';
import { snapBottom } from './snap-bottom.js';
import { straightTuck } from './straight-tuck.js';
import { tetraPouch } from './tetra-pouch.js';
import { tuckTray } from './tuck-tray.js';
import { wrap } from './wrap.js';

/** All box styles, in the order in which they are listed. */
export const STYLES: readonly BoxStyle[] = [
  flipLid,
  tuckTray,
  displayTray,
  lidAndBase,
  sleeveAndTray,
  straightTuck,
  reverseTuck,
  snapBottom,
  crashBottom,
  petalClose,
  gable,
  gableTop,
  house,
  prism,
  cup,
  cone,
  pyramid,
  pillow,
  fourWallBurst,
  divider,
  platform,
  gussetBag,
  envelope,
  pouch,
  slice,
  wrap,
  bagTopper,
  drum,
  heartBox,
  tetraPouch,
];
