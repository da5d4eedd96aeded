/**
 * Every feature on a box that a person would make: the net with what the feature adds picked out, and the
 * box folded from it.
 */

import { proveFold } from '../../src/fold/assembly.js';
import type { Standing } from '../../src/fold/index.js';
import { closureMate } from '../../src/fold/outline.js';
import { pose } from '../../src/fold/pose.js';
import {
  arcsToCubics,
  circle,
  distanceToPath,
  openPath,
  pointAt,
  steps,
  transform,
} from '../../src/geom/index.js';
import { filmsOf } from '../../src/item-finish.js';
import type { Net, Panel, Path, Stroke } from '../../src/model.js';
import { pathData } from '../../src/write/svg.js';
import { SHOWN_FEATURES, type ShownFeature, shownNets } from '../support/shown-features.js';
import {
  CAPTION_PX,
  CARDS,
  CELL_HEIGHT,
  caption,
  flatNets,
  GROUND,
  type Letter,
  MARGIN,
  solid,
  together,
} from './box-pictures.js';
import type { Tile } from './collage.js';

const COLUMNS = 3;
const FLAT = 235;
const SOLID = 215;
const CELL_WIDTH = FLAT + SOLID + 3 * MARGIN;

/** What the feature cuts, perforates and draws; film and dots. */
const CUT = '#b3341f';
const TEAR = '#a0527f';
const PEN = '#1f6fa8';
const FILM = '#8fc1d6';

/** Boxes that show more on the way than closed, and how far. */
const ON_THE_WAY: Readonly<Record<string, number>> = {
  'ribbon-holes': 0.8,
  'corners-round': 0.75,
  'corners-chamfer': 0.75,
  'slit-lock': 0.35,
  'closure-hook-and-loop': 0.7,
  'closure-sticker': 0.85,
  'closure-magnet': 0.7,
  'glue-areas': 0.35,
  'hinge-marks': 0.35,
};

export function featureSheet(letter: Letter): Tile {
  const rows = Math.ceil(SHOWN_FEATURES.length / COLUMNS);
  const width = COLUMNS * CELL_WIDTH;
  const height = rows * (CELL_HEIGHT + CAPTION_PX) + CAPTION_PX;
  const cells = SHOWN_FEATURES.map((shown, i) => {
    const x = (i % COLUMNS) * CELL_WIDTH;
    const y = Math.floor(i / COLUMNS) * (CELL_HEIGHT + CAPTION_PX) + CAPTION_PX / 2;
    const card = CARDS[i % CARDS.length]!;
    const middle = x + CELL_WIDTH / 2;
    const name = caption(letter, shown.caption, middle, y + CELL_HEIGHT + CAPTION_PX / 2);
    return `<g transform="translate(${x} ${y})">${cell(shown, card)}</g>${name}`;
  });
  // Below the last row of cells there is one left.
  const last = (rows - 0.5) * (CELL_HEIGHT + CAPTION_PX) - 1.5 * CAPTION_PX;
  const free = SHOWN_FEATURES.length % COLUMNS > 0;
  const key = free ? legend(letter, (COLUMNS - 0.5) * CELL_WIDTH, last) : '';
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">` +
    `<rect width="${width}" height="${height}" fill="${GROUND}"/>${cells.join('')}${key}</svg>`;
  return { svg, width };
}

function cell(shown: ShownFeature, card: string): string {
  const { plain, nets, pieces } = shownNets(shown);
  const flat = flatNets(nets, card, FLAT, (net, px) => {
    const before = plain.find(n => n.id === net.id)!;
    const films = pieces
      .filter(p => p.net === net.id)
      .map(p => shape(transform(p.outline, p.at), px, FILM, 0.35));
    return films.join('') + added(before, net, px);
  });
  const at = ON_THE_WAY[shown.id];
  const stood: Standing[] =
    at === undefined
      ? together(nets)
      : [{ net: nets[0]!, folding: proveFold(nets[0]!).folding(at) }];
  const films = filmsOf({ pieces });
  const finished = stood.map(s => ({ ...s, films }));
  return flat + solid(finished, card, 2 * MARGIN + FLAT, SOLID);
}

/** What the colours mean, where the sheet has a cell left. */
function legend(letter: Letter, x: number, y: number): string {
  const entries: readonly (readonly [string, string])[] = [
    [CUT, 'cut'],
    [TEAR, 'perforated'],
    [PEN, 'drawn, or stuck there'],
    [FILM, 'film, glued inside'],
  ];
  const rows = entries.map(([colour, text], i) => {
    const at = y + i * CAPTION_PX;
    const box = `<rect x="${x - 92}" y="${at - 11}" width="26" height="12" rx="3" fill="${colour}"/>`;
    return box + caption(letter, text, x + 20, at);
  });
  return rows.join('');
}

type Px = (n: number) => string;

function line(path: Path, px: Px, colour: string, dash = ''): string {
  const data = pathData(arcsToCubics(path), 0);
  return `<path fill="none" stroke="${colour}" stroke-width="${px(1.7)}"${dash} d="${data}"/>`;
}
function shape(path: Path, px: Px, colour: string, opacity: number): string {
  const data = pathData(arcsToCubics(path), 0);
  return `<path fill="${colour}" fill-opacity="${opacity}" stroke="${colour}" stroke-width="${px(1.2)}" d="${data}"/>`;
}

/** What the net has that it had not before. */
function added(before: Net, net: Net, px: Px): string {
  const panels = net.panels.map(now => {
    const old = before.panels.find(p => p.id === now.id)!;
    const holes = now.holes.filter(h => !old.holes.includes(h));
    const strokes = now.strokes.filter(s => !old.strokes.includes(s));
    return [
      ...newEdges(old, now).map(e => line(e, px, CUT)),
      ...holes.map(h => line(h, px, CUT)),
      ...strokes.map(s => strokeLine(s, px)),
    ].join('');
  });
  const folded = pose(net);
  const dots = net.closures
    .filter(c => !before.closures.includes(c))
    .flatMap(c => [c.at, closureMate(c, folded)].map(at => circle(at, c.diameter / 2)));
  return panels.join('') + dots.map(d => shape(d, px, PEN, 0.3)).join('');
}

const newEdges = (old: Panel, now: Panel): Path[] =>
  now.outline === old.outline
    ? []
    : [...steps(now.outline)]
        .filter(s => distanceToPath(pointAt(s, 0.5), old.outline) > 1e-3)
        .map(s => openPath(s.from, [s.segment]));

function strokeLine({ operation, path }: Stroke, px: Px): string {
  if (operation === 'draw') return path.closed ? shape(path, px, PEN, 0.2) : line(path, px, PEN);
  if (operation === 'cut') return line(path, px, CUT);
  return line(path, px, TEAR, ` stroke-dasharray="${px(3)} ${px(2)}"`);
}
