/** A greeting of twenty letters, warm: set and welded, nothing remembered; and cut out whole. The built
 *  program is measured. */
import { allFonts, FACES, fontBytes } from '../support/fonts.js';
import { type Row, warmed } from './measure.js';

const TEXT = 'Happy harvest friends';
const AIM_MS = 60;
/** No figure was promised: widening, joining and a mount are four offsets of the whole text. */
const AIM_WHOLE_MS = 250;

const built = <T>(file: string): Promise<T> =>
  import(new URL(`../../dist/${file}`, import.meta.url).href) as Promise<T>;

export async function letters(): Promise<Row[]> {
  const { openFace } =
    await built<typeof import('../../src/motifs/lettering.js')>('motifs/lettering.js');
  const { setText } =
    await built<typeof import('../../src/motifs/text/set.js')>('motifs/text/set.js');
  const { greeting } =
    await built<typeof import('../../src/motifs/greeting.js')>('motifs/greeting.js');
  const { makeMotifTools } =
    await built<typeof import('../../src/motifs/tools.js')>('motifs/tools.js');
  const { fillParams } = await built<typeof import('../../src/params.js')>('params.js');
  const rows: Row[] = [];
  const fonts = allFonts();
  for (const font of FACES) {
    const face = openFace(...fontBytes(font));
    const weld = await warmed(() => setText(face, { text: TEXT, font, height: 10 }), 10, 21);
    rows.push({ what: `20 letters welded, ${font}`, value: weld, unit: 'ms', aim: AIM_MS });
  }
  const values = fillParams(greeting.params, { text: TEXT, size: 160 });
  // New tools each time, since they remember what they set; the font is opened anew as well.
  const whole = await warmed(() => greeting.build(values, makeMotifTools({ fonts })), 3, 9);
  rows.push({
    what: 'greeting of 20 letters cut out whole',
    value: whole,
    unit: 'ms',
    aim: AIM_WHOLE_MS,
  });
  return rows;
}
