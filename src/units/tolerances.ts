/**
 * The one table of tolerances. Everything in millimetres unless the name says otherwise; each with
 * its reason. No other file has an epsilon of its own.
 */

/** Two points this near are one point: far below a cutter's step (about 0.025), far above rounding. */
export const SAME_POINT_MM = 1e-6;

/** A point within this of a path lies on it: the two came by different sums from the same facts. */
export const ON_PATH_MM = 1e-5;

/** Joins meet within this after folding: a fifth of a 250 µm card, less than a hand can place. */
export const CLOSE_MM = 0.05;

/** The tip of the blade may leave its drawn line by this much: below any hobby cutter's step. */
export const TIP_MM = 0.01;

/** Curves turned into arcs or lines stay this near to the curve. Half of `TIP_MM`, so that two
 *  fits in a row still keep the promise of 0.01 mm. */
export const FIT_MM = 0.004;

/** Curves are flattened this finely where an area or an overlap is only measured. */
export const MEASURE_MM = 0.002;

/** Every number in a file is rounded to this, once, by the writer. */
export const FILE_STEP_MM = 0.001;

/** Angles (radians) nearer than this are one direction: 1 mm of error on a 100 m sheet. */
export const SAME_ANGLE = 1e-5;

/** The pivot of the blade may leave its exact path by this at a corner too slight for a swing of
 *  its own: a twentieth of `TIP_MM`, half a step of the file. */
export const JOIN_MM = 0.0005;

/** The blade's track and the drawing are measured against each other this finely: a twentieth of
 *  `TIP_MM`. */
export const TIP_MEASURE_MM = 0.0005;

/** What a blade would do with nobody's help, 0.1 mm and more, is told to a hundredth or two: it is there to
 *  show why somebody must help. */
export const UNCOMPENSATED_MM = 0.01;

/** Ends of lines that miss each other by no more than this were meant to meet: half a usual step
 *  of a hobby cutter (0.025), and not to be seen on paper. */
export const GAP_MM = 0.0125;

/** A usual step of a hobby cutter (common practice, no source): a segment shorter than this is none that a
 *  machine can make. */
export const LEAST_SEGMENT_MM = 0.025;

/** Merging short segments moves nothing by more than this: a fifth of `TIP_MM`, so that the fits after it
 *  still keep its promise. */
export const MERGE_MM = 0.002;

/** Curved edges and curled panels stand as facets this near to them in the fold check: a fifth of
 *  `CLOSE_MM`, so that the facets' own error never decides. */
export const FOLD_FACET_MM = 0.01;

/** Card narrower than this tears when it is lifted off the mat (common practice, no source). */
export const LEAST_WIDTH_MM = 1;

/** In pictures of folded boxes, faces nearer than this lie in one plane: below a tenth of a pixel. */
export const VIEW_PLANE_MM = 0.01;

/** A flap that is pushed in behind another springs round a radius of this and comes back without a
 *  crease (common practice, no source): light card, the way that bends it less. */
export const SPRING_RADIUS_MM = 40;

/** A length that a person gives is 0 or at least this: a fifth of the thinnest paper. */
export const LEAST_LENGTH_MM = 0.01;

/** Folds that meet in a point give by this on the way: the creases of thick paper are no lines. */
export const RING_GIVE_MM = 0.5;
