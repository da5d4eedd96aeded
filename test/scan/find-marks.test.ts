/** Register marks found in pictures whose truth is known: turned, tilted, dim, noisy, incomplete. */
import { describe, expect, it } from 'vitest';
import type { PrintedMark } from '../../src/model.js';
import { findMarks, type SeenSheet, type Unseen } from '../../src/scan/find-marks.js';
import { chained, onto, type Plane, slopesAt } from '../../src/scan/plane.js';
import { type Grey, greyOf } from '../../src/scan/raster.js';
import {
  corner,
  disc,
  fiveOf,
  flat,
  LETTER,
  page,
  photo,
  ringAndCross,
  spoilt,
  turned,
  wedgeOf,
} from './pages.js';

const sound = (found: SeenSheet | Unseen): SeenSheet => {
  if ('unseen' in found) throw new Error(found.unseen);
  return found;
};
const refusal = (found: SeenSheet | Unseen): string => {
  if (!('unseen' in found)) throw new Error(`found ${found.marks.length} marks`);
  return found.unseen;
};
/** The worst mark, mm at the picture's resolution. */
const worst = ({ marks }: SeenSheet, truth: Plane, dpi: number): number =>
  Math.max(
    ...marks.map(({ mark, at }) => {
      const [x, y] = onto(truth, mark.at);
      return (Math.hypot(x - at[0], y - at[1]) * 25.4) / dpi;
    }),
  );

const STYLES = { 'ring and cross': ringAndCross, disc, corner };
/** On a bed a little larger than the sheet. */
function scanned(
  marks: readonly PrintedMark[],
  dpi: number,
  deg: number,
  more = '',
  size: readonly [number, number] = LETTER,
) {
  const sheet = page(marks, dpi, { more, size });
  const side = Math.round(1.12 * Math.hypot(sheet.width, sheet.height) * 0.9);
  const by = chained(
    [1, 0, (side - sheet.width) / 2, 0, 1, (side - sheet.height) / 2, 0, 0],
    turned(sheet.width, sheet.height, deg, [3.4, -5.7]),
  );
  const truth = chained(by, flat(size, dpi));
  const spoil = { by, width: side, height: side, noise: 6, uneven: 0.7, soft: 2 };
  return { grey: spoilt(sheet, spoil), truth };
}

const mirrored = ({ width, height, data }: Grey): Grey => ({
  width,
  height,
  data: data.map((_, k) => data[k - 2 * (k % width) + width - 1]!),
});

describe('in a flat scan', () => {
  for (const [name, make] of Object.entries(STYLES)) {
    const marks = fiveOf(make);
    it(`${name}: all five, to a tenth of a millimetre`, () => {
      for (const dpi of [150, 300]) {
        const found = sound(findMarks(greyOf(page(marks, dpi)), marks));
        expect(found.missing.map(m => m.name)).toEqual([]);
        expect(worst(found, flat(LETTER, dpi), dpi)).toBeLessThan(0.03);
      }
    });
    it(`${name}: crooked, a quarter round, upside down; dim, noisy`, () => {
      for (const deg of [4, -9, 93, 181, 268]) {
        const { grey, truth } = scanned(marks, 150, deg);
        const found = sound(findMarks(grey, marks));
        expect(
          found.missing.map(m => m.name),
          `${deg}°`,
        ).toEqual([]);
        expect(found.wayBy).toBe('marks');
        expect(worst(found, truth, 150), `${deg}°`).toBeLessThan(0.03);
      }
    });
  }

  it('among printed dots, rings and words', () => {
    const marks = fiveOf(disc);
    const art = Array.from({ length: 240 }, (_, i) => {
      const [x, y] = [25 + (i % 16) * 11, 25 + Math.floor(i / 16) * 15];
      const r = 1.6 + (i % 5) * 0.4;
      return i % 3 === 0
        ? `<circle cx="${x}" cy="${y}" r="${r}" fill="none" stroke="#843" stroke-width=".4"/>`
        : `<circle cx="${x}" cy="${y}" r="${r}" fill="#b52"/>`;
    });
    const { grey, truth } = scanned(marks, 150, 2, art.join(''));
    const found = sound(findMarks(grey, marks));
    expect(found.missing.map(m => m.name)).toEqual([]);
    expect(worst(found, truth, 150)).toBeLessThan(0.03);
  });
});

describe('in a photo', () => {
  for (const [name, make] of Object.entries(STYLES)) {
    it(`${name}: from the side, on a dark table`, () => {
      const marks = fiveOf(make);
      const sheet = page(marks, 150);
      const [w, h] = [sheet.width, sheet.height];
      for (const [size, pose] of [
        [[w, h], { tip: 25 }],
        [[w, h], { tip: -15, lean: 20, turn: 8 }],
        [[h, w], { turn: 95, tip: 30, far: 1.5 }],
        [[w, h], { turn: 180, lean: 35, far: 1.5 }],
      ] as const) {
        const by = photo([w, h], size, pose);
        const light = { noise: 6, uneven: 0.6, soft: 2, ground: 90 };
        const seen = spoilt(sheet, { by, width: size[0], height: size[1], ...light });
        const found = sound(findMarks(seen, marks));
        expect(
          found.missing.map(m => m.name),
          JSON.stringify(pose),
        ).toEqual([]);
        expect(worst(found, chained(by, flat(LETTER, 150)), 150)).toBeLessThan(0.05);
      }
    });
  }
});

describe('a photo of a sheet of another size', () => {
  const a4 = [210, 297] as const;
  it.each(Object.entries(STYLES))('%s: A4 for Letter and Letter for A4 are refused', (_, make) => {
    for (const [size, other] of [
      [a4, LETTER],
      [LETTER, a4],
    ] as const) {
      const sheet = page(fiveOf(make, size), 150, { size });
      const [w, h] = [sheet.width, sheet.height];
      for (const pose of [
        { tip: 25 },
        { tip: -12, lean: 20, turn: 8 },
        { lean: -32, turn: 4, far: 1.5 },
      ]) {
        const light = { noise: 5, uneven: 0.7, soft: 2, ground: 90 };
        const seen = spoilt(sheet, {
          by: photo([w, h], [w, h], pose),
          width: w,
          height: h,
          ...light,
        });
        const told = findMarks(seen, fiveOf(make, other));
        expect('unseen' in told ? told.unseen : '', JSON.stringify(pose)).toContain("this sheet's");
        if (pose.tip === 25) sound(findMarks(seen, fiveOf(make, size)));
      }
    }
  });
});

describe('a mark that is missing', () => {
  const marks = fiveOf(ringAndCross);
  const without = (name: string) => marks.filter(m => m.name !== name);
  it('is named, and the others go on', () => {
    for (const { name } of marks.slice(0, 4)) {
      const { grey, truth } = scanned(without(name), 150, 182);
      const found = sound(findMarks(grey, marks));
      expect(found.missing.map(m => m.name)).toEqual([name]);
      expect(found.wayBy).toBe('marks');
      expect(worst(found, truth, 150)).toBeLessThan(0.03);
    }
  });
  describe.each(Object.entries(STYLES))('%s without the fifth', (_, make) => {
    const [all, wedge] = [fiveOf(make), wedgeOf(make)];
    const others = all.slice(0, 4);
    it('the wedge tells which way round the sheet lies', () => {
      for (const deg of [3, 178, -4]) {
        const { grey, truth } = scanned([...others, wedge], 150, deg);
        const found = sound(findMarks(grey, all, wedge));
        expect(found.missing.map(m => m.name)).toEqual(['fifth']);
        expect(found.wayBy, `${deg}°`).toBe('wedge');
        expect(worst(found, truth, 150), `${deg}°`).toBeLessThan(0.03);
      }
    });
    it('the wedge tells that it is mirrored, whether the fifth is seen or not', () => {
      for (const printed of [
        [...all, wedge],
        [...others, wedge],
      ]) {
        const { grey } = scanned(printed, 150, 2);
        expect(refusal(findMarks(mirrored(grey), all, wedge))).toContain('mirrored');
      }
    });
    it('without the wedge nothing tells, and it is taken to lie upright', () => {
      for (const deg of [3, 181]) {
        const { grey, truth } = scanned(others, 150, deg);
        const found = sound(findMarks(grey, all, wedge));
        expect(found.wayBy).toBe('nothing');
        if (deg === 3) expect(worst(found, truth, 150)).toBeLessThan(0.03);
        else expect(worst(found, truth, 150)).toBeGreaterThan(100);
      }
    });
  });
  it('on a square sheet the wedge tells of four ways', () => {
    const square = [304.8, 304.8] as const;
    const [all, wedge] = [fiveOf(disc, square), wedgeOf(disc, square)];
    for (const deg of [1, 92, 179, 271]) {
      const { grey } = scanned([...all.slice(0, 4), wedge], 100, deg, '', square);
      const found = sound(findMarks(grey, all, wedge));
      expect(found.wayBy, `${deg}°`).toBe('wedge');
      const [a, , c] = slopesAt(found.plane, [100, 100]);
      const turn = (Math.atan2(c, a) * 180) / Math.PI;
      expect(Math.cos(((turn - deg) * Math.PI) / 180), `${deg}°`).toBeGreaterThan(0.999);
    }
  });
  describe.each(Object.entries(STYLES))('%s among printed dots', (_, make) => {
    const [all, wedge] = [fiveOf(make), wedgeOf(make)];
    const dots = Array.from({ length: 200 }, (_, i) => {
      const [x, y] = [26 + (i % 20) * 8.5, 24 + Math.floor(i / 20) * 23];
      return `<circle cx="${x}" cy="${y}" r="${1.3 + (i % 4) * 0.5}" fill="#b52"/>`;
    }).join('');
    const kept = (names: readonly string[]) => all.filter(m => names.includes(m.name));
    it('three do: the dots are not taken for the others', () => {
      for (const names of [
        ['upper-right', 'upper-left', 'fifth'],
        ['lower-right', 'upper-right', 'upper-left'],
        ['lower-left', 'upper-right', 'fifth'],
      ]) {
        const { grey, truth } = scanned([...kept(names), wedge], 150, -2, dots);
        const found = sound(findMarks(grey, all, wedge));
        expect(found.marks.map(m => m.mark.name).sort()).toEqual([...names].sort());
        expect(worst(found, truth, 150), names.join()).toBeLessThan(0.03);
      }
    });
    it('two do not', () => {
      for (const names of [
        ['upper-left', 'fifth'],
        ['lower-left', 'upper-right'],
      ]) {
        const { grey } = scanned([...kept(names), wedge], 150, 1, dots);
        const told = refusal(findMarks(grey, all, wedge));
        expect(told, names.join()).toMatch(/fewer than 3 of this sheet|not this sheet's/);
      }
    });
  });
  it('smudged but still there, is found', () => {
    const [x, y] = marks[2]!.at;
    const smudge = `<circle cx="${x + 1}" cy="${y - 1}" r="1.7" fill="#999"/><path d="M${x - 8} ${y}l16 2" stroke="#777" stroke-width=".6"/>`;
    const { grey, truth } = scanned(marks, 150, -3, smudge);
    const found = sound(findMarks(grey, marks));
    expect(found.missing.map(m => m.name)).toEqual([]);
    expect(worst(found, truth, 150)).toBeLessThan(0.1);
  });
});

describe('is refused', () => {
  const marks = fiveOf(ringAndCross);
  it('a blank page, and one of art alone', () => {
    expect(refusal(findMarks(greyOf(page([], 100)), marks))).toContain('no register mark');
    const art = '<circle cx="100" cy="100" r="60" fill="#b52"/>';
    expect(refusal(findMarks(greyOf(page([], 100, { more: art })), marks))).toMatch(/mark/);
  });
  it("another sheet's page", () => {
    const a4 = [210, 297] as const;
    const other = page(fiveOf(ringAndCross, a4), 150, { size: a4 });
    expect(refusal(findMarks(greyOf(other), marks))).toContain("not this sheet's");
  });
});
