/** A greeting cut out whole: its letters welded, what does not touch joined by small bars. */
import { defineMotif, type MotifTools, type SetText } from '../contracts.js';
import {
  bounds,
  clockwise,
  compose,
  counterClockwise,
  fitPolyline,
  flatten,
  growRegions,
  offsetRegions,
  rectangle,
  scaling,
  transform,
  translation,
  uniteRegions,
} from '../geom/index.js';
import type { Layer, Path, Region } from '../model.js';
import { ParamError, type Values } from '../params.js';
import { LEAST_WIDTH_MM } from '../units/tolerances.js';
import { layer } from './layers.js';
import { letteringParams, movedText } from './lettered.js';
import { barsBetween } from './text/bridges.js';
import { textBounds } from './text/set.js';

/** Capitals while the size is not yet known, mm. */
const TRIAL = 10;
/** Letters this much fatter have no stroke narrower than the least width. */
const SURE_MM = LEAST_WIDTH_MM / 2;
/** What `auto` tries: the less, the truer their shapes stay. */
const AUTO_MM = [0, 0.1, 0.2, 0.3, 0.4, SURE_MM];
/** Thickness of a bar under the letters, in bridges, and how far it reaches up into them. */
const BAR = 1.5;

export const greeting = defineMotif({
  id: 'greeting',
  family: 'lettering',
  summary: 'a greeting cut out in one piece, its letters welded, on a mount that follows it',
  params: {
    size: {
      kind: 'length',
      default: 90,
      least: 20,
      most: 300,
      help: 'width of the greeting with its mount',
    },
    text: {
      kind: 'text',
      default: 'Thank you',
      longest: 80,
      help: 'the text, lines parted by " / "',
    },
    font: letteringParams.font,
    align: letteringParams.align,
    bend: letteringParams.bend,
    bold: {
      kind: 'length',
      default: 'auto',
      least: 0,
      most: 3,
      help: 'how much fatter than the face its letters are on every side; auto: where they would tear',
    },
    hold: {
      kind: 'choice',
      default: 'bridges',
      choices: ['bridges', 'bar'],
      help: 'what holds letters that do not touch: small bars, or one bar under each line',
    },
    bridge: { kind: 'length', default: 1.6, least: 1, most: 10, help: 'width of what holds them' },
    mount: {
      kind: 'length',
      default: 3,
      least: 0,
      most: 20,
      help: 'how far the mount behind shows all round; 0 makes none',
    },
  },
  build(values, tools): readonly Layer[] {
    const { bold, font, mount, size } = values;
    const words =
      bold !== 'auto'
        ? wordsOf(values, bold, tools)
        : AUTO_MM.reduce<Region[] | undefined>(
            (w, mm) => w ?? wordsOf(values, mm, tools),
            undefined,
          );
    if (!words) {
      throw new ParamError(
        'bold',
        bold,
        `more: thin strokes of ${font} are narrower than ${LEAST_WIDTH_MM} mm at this size`,
        `${SURE_MM} mm always is enough; or make it larger, choose a heavier face, or use auto`,
      );
    }
    const front = words.map(w => layer('words', w.outer, { holes: w.holes }));
    if (mount === 0) return front;
    const behind = sizedTo(size, mountOf(words, mount));
    return [...behind.map(m => layer('mount', m.outer, { paper: 'mount' })), ...front];
  },
});

type GreetingValues = Values<typeof greeting.params>;

/** The letters welded with what holds them; nothing where a stroke is narrower than the least width. */
function wordsOf(values: GreetingValues, bold: number, tools: MotifTools): Region[] | undefined {
  const { size, text, font, align, bend, hold, bridge, mount } = values;
  const ask = { text, font, align, bend: (bend * Math.PI) / 180, height: TRIAL } as const;
  const trial = tools.set(ask);
  if (trial.regions.length === 0) {
    throw new ParamError('font', font, 'a face with outlines', 'single lines cannot be cut out');
  }
  const b = textBounds(trial);
  const scale = (size - 2 * (bold + mount)) / (b.maxX - b.minX);
  if (!(scale * TRIAL >= 2)) {
    throw new ParamError(
      'size',
      size,
      `more: "${text}" would have capitals of ${Math.max(0, scale * TRIAL).toFixed(1)} mm`,
      'make it larger, the text shorter, or its mount narrower',
    );
  }
  const { regions, baselines } = movedText(trial, scaling(scale));
  const feet = hold === 'bar' && bend === 0 ? barsUnder(baselines, bold, bridge) : [];
  const parts = feet.length > 0 ? uniteRegions([...regions, ...feet]) : regions;
  const bars = [...feet, ...barsBetween(parts, bridge)];
  const fat =
    bold > 0
      ? growRegions([
          { regions, by: bold },
          { regions: bars, by: 0 },
        ])
      : uniteRegions([...regions, ...bars]);
  return wide(sizedTo(size - 2 * mount, fat), bold);
}

/** A bar along each baseline that the letters stand on. */
const barsUnder = (baselines: SetText['baselines'], bold: number, bridge: number): Region[] =>
  baselines.map(({ from: [x, y], width }) => ({
    outer: rectangle(x, y - bold - (BAR - 0.5) * bridge, width, BAR * bridge),
    holes: [],
  }));

/** To the exact width, about the origin: what offsets and bars leave of it is a hair. */
function sizedTo(width: number, regions: readonly Region[]): Region[] {
  const b = bounds(...regions.map(r => r.outer));
  const middle = translation(-(b.minX + b.maxX) / 2, -(b.minY + b.maxY) / 2);
  const move = compose(scaling(width / (b.maxX - b.minX)), middle);
  return regions.map(r => ({
    outer: transform(r.outer, move),
    holes: r.holes.map(h => transform(h, move)),
  }));
}

/**
 * Words without a neck or a hole narrower than the least width; nothing where a stroke is one. Letters
 * that were grown by half of it or more have no such stroke, only webs where two of them have just met:
 * these are taken away by shrinking and growing again (an opening: Serra, "Image analysis and
 * mathematical morphology", 1982).
 */
function wide(words: readonly Region[], bold: number): Region[] | undefined {
  const half = LEAST_WIDTH_MM / 2;
  if (bold >= half) {
    const core = offsetRegions(words, -half * (1 - 1e-6), 'round');
    return offsetRegions(core, half * (1 - 1e-6), 'round').map(withWideHoles);
  }
  const whole = words.map(withWideHoles);
  const core = offsetRegions(whole.map(rough), -half, 'round');
  const holes = (regions: readonly Region[]) => regions.flatMap(r => r.holes).length;
  return core.length === whole.length && holes(core) === holes(whole) ? whole : undefined;
}

/** Holes that a disc of the least width fits into; of one that is pinched the largest part, so that no web
 *  is left between two. A counter that is narrower is filled. */
const withWideHoles = ({ outer, holes }: Region): Region => ({
  outer,
  holes: holes.flatMap(hole => {
    const opening = [{ outer: counterClockwise(hole), holes: [] }];
    const core = offsetRegions(opening, -LEAST_WIDTH_MM / 2, 'round');
    if (core.length === 1) return hole;
    const largest = core.slice(0, 1);
    return offsetRegions(largest, LEAST_WIDTH_MM / 2, 'round').map(r => clockwise(r.outer));
  }),
});

/** Its mount: what it encloses is paper, and bays narrower than the least width are closed. */
function mountOf(words: readonly Region[], mount: number): Region[] {
  const grown = offsetRegions(filled(words.map(rough)), mount + LEAST_WIDTH_MM / 2, 'round');
  return offsetRegions(filled(grown), -LEAST_WIDTH_MM / 2, 'round');
}

const filled = (regions: readonly Region[]): Region[] =>
  regions.map(({ outer }) => ({ outer, holes: [] }));

/** How near the outlines are that widths are checked on, and that a mount follows, mm: a twentieth of
 *  the least width, in two steps. Fewer, longer arcs are offset in half of the time. */
const FLAT_MM = 0.02;
const ROUGH_MM = 0.03;
const roughly = (path: Path): Path => fitPolyline(flatten(path, FLAT_MM), true, ROUGH_MM);

/** Words are checked and mounted: their outlines are simplified once. */
const known = new WeakMap<Region, Region>();
function rough(region: Region): Region {
  const found = known.get(region);
  if (found) return found;
  const made = { outer: roughly(region.outer), holes: region.holes.map(roughly) };
  known.set(region, made);
  return made;
}
