/** A card as the tests of boxes cut them from. */
export const CARD = {
  id: 'card',
  summary: 'card',
  width: 305,
  height: 305,
  gsm: 250,
  caliper: 0.3,
  caliperFrom: 'bulk',
  grain: 'unknown',
  colour: '#ffffff',
} as const;
