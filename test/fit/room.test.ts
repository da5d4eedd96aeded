/** What styles say of their room for a treat, against their folded boxes. */
import { describe, expect, it } from 'vitest';
import type { BoxStyle } from '../../src/contracts.js';
import type { Inside } from '../../src/model.js';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { holds } from './room.js';

const netsOf = (style: BoxStyle, inside: Inside, thickness: number) =>
  style.build({ inside, thickness }, fillParams(style.params, {}));
const grown = ({ length, width, height }: Inside, by: number): Inside => ({
  length: length + by,
  width: width + by,
  // Open above, a tray ends at the rim.
  height: height + by / 2,
});

const withRoom = STYLES.filter(s => s.room);

describe.each(withRoom.map(s => [s.id, s] as const))('%s', (_, style) => {
  const { example, room, plan = 'rectangle' } = style;
  // Mid-surfaces stand half a thickness outside the clear space on every side.
  it.each([0, 0.3])('holds the block that it is sized for, of paper %f mm thick', t => {
    const inside = room?.insideFor?.(example) ?? example;
    expect(inside).toBeDefined();
    expect(holds(netsOf(style, inside, t), grown(example, t), plan)).toBe(true);
  });
  it('does not hold one half as large again', () => {
    const inside = room?.insideFor?.(example) ?? example;
    const nets = netsOf(style, inside, 0);
    // Walls may stand higher than the clear space: a display's back does.
    for (const side of ['length', 'width'] as const) {
      const larger = { ...example, [side]: 1.5 * example[side] };
      expect(holds(nets, larger, plan), side).toBe(false);
    }
  });
});

/** Over a bag's top there is room for the bag's top, which is no treat. */
const OVER_A_BAG = 'bag-topper';

describe('styles that say nothing of a treat', () => {
  it.each(STYLES.filter(s => !s.room && s.id !== OVER_A_BAG).map(s => [s.id, s] as const))(
    '%s holds none',
    (_, style) => {
      // Failing here, a new style needs its line `room: { lies: … }`.
      expect(holds(netsOf(style, style.example, 0), style.example, style.plan ?? 'rectangle')).toBe(
        false,
      );
    },
  );
});
