/** Every style at its example: the net in the flat, half folded and closed, as a picture. */
import { describe, it } from 'vitest';
import { fillParams } from '../../src/params.js';
import { STYLES } from '../../src/styles/index.js';
import { expectGolden } from '../support/golden.js';
import { picture } from '../support/net-picture.js';

describe('goldens of styles', () => {
  it.each(STYLES.map(s => [s.id, s] as const))('%s', (id, style) => {
    const nets = style.build(
      { inside: style.example, thickness: 0.3 },
      fillParams(style.params, {}),
    );
    expectGolden(`styles/${id}.svg`, picture(nets));
  });
});
