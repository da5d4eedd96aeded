/** Answers `fit`, in words, as JSON and as a picture. */
import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { answerFit, type FitAnswer, type FitCommand, formatFaults } from '../job/index.js';
import { STYLES } from '../styles/index.js';
import { type Environment, EXIT, type ExitCode, InputError } from './environment.js';
import { fitJson } from './fit-json.js';
import { boxesText, captions, intoText, writeMm } from './fit-words.js';
import { readFonts, readPresets } from './preset-files.js';

export type FitOptions = FitCommand & {
  /** Boxes to list. */
  readonly most: number;
  /** The one to draw and to make, counted from 1. */
  readonly pick: number;
  readonly out?: string | undefined;
  readonly json?: true | undefined;
};

/** Sizes of each style where all styles are compared; where some are named, as many as are listed. */
const SIZES_EACH = 2;
const PICTURE_FACE = 'nunito-bold';
const PNG_WIDTH_PX = 1600;
const isPng = (file: string) => /\.png$/i.test(file);

export async function runFit(options: FitOptions, environment: Environment): Promise<ExitCode> {
  const { most, pick, out } = options;
  if (out !== undefined && !/\.(?:svg|png)$/i.test(out)) {
    throw new InputError(
      `--out ${out}: a picture of no known kind. Allowed: a name ending in .svg or .png.`,
    );
  }
  const shown = Math.max(most, pick);
  const named = options.style.length;
  const sizes = named > 0 ? Math.max(SIZES_EACH, Math.ceil(shown / named)) : SIZES_EACH;
  const library = { styles: STYLES, motifs: [], patterns: [], presets: readPresets(environment) };
  const answer = answerFit(options, library, sizes);
  if ('faults' in answer) throw new InputError(formatFaults(answer.faults));
  const { into, boxes, treat } = answer;
  if (!into && pick > boxes.length) {
    throw new InputError(
      `--pick ${pick}: no such box was found. Allowed: from 1 to ${boxes.length}.`,
    );
  }
  if (out !== undefined) await draw(answer, pick, out, environment);
  if (options.json) environment.out(JSON.stringify(fitJson(answer, shown), undefined, 2));
  else {
    environment.out(into ? intoText(answer) : boxesText(answer, shown, pick));
    if (out !== undefined) environment.out(`Drawn in ${out}.`);
  }
  return into && into.fullest.count < treat.count ? EXIT.checkFailed : EXIT.good;
}

async function draw(
  answer: FitAnswer,
  pick: number,
  out: string,
  environment: Environment,
): Promise<void> {
  const fitted = answer.boxes[pick - 1];
  const arrangement = fitted ? fitted.box.arrangement() : answer.into?.fullest.arrangement;
  if (!arrangement) {
    throw new InputError(`--out ${out}: there is nothing to draw. Leave it out to see why.`);
  }
  const [{ makeMotifTools }, { toPng, treatPicture }] = await Promise.all([
    import('../motifs/index.js'),
    import('../write/index.js'),
  ]);
  const tools = makeMotifTools({ fonts: readFonts(environment) });
  const subject = {
    arrangement,
    paper: answer.stock.colour,
    mm: writeMm(answer),
    ...captions(answer, arrangement, fitted),
  };
  const letter = (text: string, height: number) => tools.letter(text, PICTURE_FACE, height);
  const svg = await treatPicture(subject, letter);
  try {
    writeFileSync(resolve(environment.cwd, out), isPng(out) ? toPng(svg, PNG_WIDTH_PX) : svg);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new InputError(`--out ${out}: cannot be written: ${why}`);
  }
}
