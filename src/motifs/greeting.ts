/** A greeting cut out whole: its letters welded, what does not touch joined by small bars. */
import { defineMotif, type SetText } from '../contracts.js';
import {
  bounds,
  offsetRegions,
  rectangle,
  scaling,
  transform,
  translation,
  uniteRegions,
} from '../geom/index.js';
import type { Layer, Region } from '../model.js';
import { ParamError } from '../params.js';
import { layer } from './layers.js';
import { letteringParams, movedText } from './lettered.js';
import { joined } from './text/bridges.js';
import { textBounds } from './text/set.js';

/** Capitals while the size is not yet known, mm. */
const TRIAL = 10;
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
      default: 0.3,
      least: 0,
      most: 3,
      help: 'how much fatter than the face its letters are made, on every side',
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
  build({ size, text, font, align, bend, bold, hold, bridge, mount }, tools): readonly Layer[] {
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
    const fat = bold > 0 ? offsetRegions(regions, bold, 'round') : regions;
    const barred = hold === 'bar' && bend === 0 ? withBars(fat, baselines, bold, bridge) : fat;
    const words = centred(joined(barred, bridge), size - 2 * mount);
    const front = words.map(w => layer('words', w.outer, { holes: w.holes }));
    if (mount === 0) return front;
    const behind = offsetRegions(
      words.map(w => ({ outer: w.outer, holes: [] })),
      mount,
      'round',
    );
    // What the offset encloses is paper.
    return [...behind.map(m => layer('mount', m.outer, { paper: 'mount' })), ...front];
  },
});

/** A bar along each baseline that the letters stand on. */
function withBars(
  regions: readonly Region[],
  baselines: SetText['baselines'],
  bold: number,
  bridge: number,
): Region[] {
  const bars = baselines.map(({ from: [x, y], width }) => ({
    outer: rectangle(x, y - bold - (BAR - 0.5) * bridge, width, BAR * bridge),
    holes: [],
  }));
  return uniteRegions([...regions, ...bars]);
}

/** To the exact width: what offsets and bars leave of it is a hair. */
function centred(regions: readonly Region[], width: number): Region[] {
  const b = bounds(...regions.map(r => r.outer));
  const k = width / (b.maxX - b.minX);
  const move = (p: Region['outer']) =>
    transform(
      transform(p, translation(-(b.minX + b.maxX) / 2, -(b.minY + b.maxY) / 2)),
      scaling(k),
    );
  return regions.map(r => ({ outer: move(r.outer), holes: r.holes.map(move) }));
}
