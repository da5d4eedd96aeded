/** A drawing of the person's own as a motif: its closed cut lines become pieces of paper with holes, all
 *  other lines are worked on them, and words go where it has room for them. */
import { defineMotif, type Motif, type MotifTools } from '../contracts.js';
import { bounds, compose, placesIn, scaling, transform, translation } from '../geom/index.js';
import type { Affine, Layer, Operation, Path, Point, Stroke } from '../model.js';
import { ParamError } from '../params.js';
import { type Lettering, letteringParams, withText } from './lettered.js';
import { type DrawnLine, lineRules, type Work } from './own-lines.js';
import { partsOf, type Refuse, withStrokes } from './own-parts.js';

/** Lines of one operation made fit to be worked: each once, ends within `gap` mm joined; and in words
 *  what was mended of them. */
export type Clean = (
  paths: readonly Path[],
  gap: number,
) => { readonly paths: readonly Path[]; readonly mended: readonly string[] };

/** The paper of a piece of which nothing is said. */
const MAIN = 'main';

export function ownArt(file: string, lines: readonly DrawnLine[], clean: Clean): Motif {
  const refuse: Refuse = (allowed, advice) => new ParamError('motif', file, allowed, advice);
  const motif = defineMotif({
    id: file,
    family: 'own',
    summary: 'a drawing of your own',
    params: {
      size: {
        kind: 'length',
        default: 'auto',
        least: 5,
        most: 600,
        help: 'width of the finished drawing; auto keeps the size it was drawn in',
      },
      gap: {
        kind: 'length',
        default: 0.1,
        least: 0,
        most: 3,
        help: 'ends of lines that miss each other by no more than this are joined',
      },
      lines: {
        kind: 'text',
        default: '',
        longest: 400,
        help: 'what is done along lines: "red: cut, eyes: cut on white, face: draw, rest: leave-out"',
      },
      ...letteringParams,
    },
    build({ size, gap, lines: rules, ...words }, tools): readonly Layer[] {
      const all = workedLines(lines, rules);
      const cut = all.filter(l => l.work === 'cut');
      if (cut.length === 0) {
        throw refuse(
          'a drawing with a closed cut line round it, and there is nothing to cut in it',
          'say with lines: which colour or group is cut',
        );
      }
      const map = placing(cut, size, refuse);
      const notes: string[] = [];
      const worked = (work: Work, paper: string | undefined) => {
        const found = all.filter(l => l.work === work && l.paper === paper).map(l => l.path);
        const { paths, mended } = clean(
          found.map(p => transform(p, map)),
          gap,
        );
        const on = paper === undefined || paper === MAIN ? '' : ` on ${paper}`;
        if (mended.length > 0) notes.push(`${file}, ${work}${on}: ${mended.join(', ')}`);
        return paths;
      };
      // In the order of painting: what was drawn first lies at the back.
      const papers = [...new Set(cut.map(l => l.paper))];
      const layers = papers.flatMap((paper): Layer[] => {
        const cuts = worked('cut', paper);
        const open = cuts.filter(p => !p.closed);
        const parts = partsOf(
          cuts.filter(p => p.closed),
          open,
          paper!,
          refuse,
        );
        const strokes = open.map((path): Stroke => ({ operation: 'cut', path }));
        return withStrokes(parts, [{ strokes }], refuse);
      });
      const named = [...new Set(all.map(l => l.paper))];
      const strokes = named.map(paper => ({
        ...(paper !== undefined && { paper }),
        strokes: (['draw', 'score', 'perforate'] satisfies Operation[]).flatMap(operation =>
          worked(operation, paper).map((path): Stroke => ({ operation, path })),
        ),
      }));
      const rooms = all.filter(l => l.work === 'text').map(l => transform(l.path, map));
      const made = worded(withStrokes(layers, strokes, refuse), rooms, words, tools);
      return made.map((l, i) => (i === 0 && notes.length > 0 ? { ...l, notes } : l));
    },
  });
  // The table's own types are narrower than `Motif`'s.
  return motif as unknown as Motif;
}

interface WorkedLine {
  readonly work: Work;
  readonly paper: string | undefined;
  readonly path: Path;
}

function workedLines(lines: readonly DrawnLine[], rules: string): WorkedLine[] {
  const ruleOf = lineRules(rules, lines);
  return lines.map(line => {
    const { work, paper } = ruleOf(line);
    // A piece of which nothing is said is of the first paper; a line is where most of it lies.
    return { work, paper: work === 'cut' ? (paper ?? MAIN) : paper, path: line.path };
  });
}

/** To its size, about the origin. */
function placing(cut: readonly WorkedLine[], size: number | 'auto', refuse: Refuse): Affine {
  const b = bounds(...cut.map(l => l.path));
  const wide = b.maxX - b.minX;
  if (!(wide > 0)) throw refuse('a drawing that is wider than nothing', 'redraw it');
  return compose(
    scaling(size === 'auto' ? 1 : size / wide),
    translation(-(b.minX + b.maxX) / 2, -(b.minY + b.maxY) / 2),
  );
}

/** The words in their room, on the foremost piece there. */
function worded(
  layers: readonly Layer[],
  rooms: readonly Path[],
  words: Lettering,
  tools: MotifTools,
): readonly Layer[] {
  if (words.text.trim() === '') return layers;
  const wrong = (allowed: string, advice: string) =>
    new ParamError('text', words.text, allowed, advice);
  if (rooms.length === 0) {
    throw wrong(
      'text where the drawing has room for it, and no line of it stands round words',
      'draw a rectangle in a group named text, or say so with lines: "blue: text"',
    );
  }
  const b = bounds(...rooms);
  const middle: Point = [(b.minX + b.maxX) / 2, (b.minY + b.maxY) / 2];
  const on = layers.findLast(l => placesIn({ outer: l.outline, holes: l.holes })(middle) === 'in');
  if (!on) throw wrong('text on its paper; its room is beside it', 'move the room onto the paper');
  const room = { middle, width: b.maxX - b.minX, height: b.maxY - b.minY };
  return layers.map(l => (l === on ? withText(l, words, room, tools) : l));
}
