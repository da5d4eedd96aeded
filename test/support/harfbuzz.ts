/** Shaping by HarfBuzz, from left to right as it is drawn. */
import * as hb from 'harfbuzzjs';

/** Glyph ids and advances, in font units. */
export function byHarfBuzz(sfnt: Uint8Array, text: string): number[][] {
  const font = new hb.Font(new hb.Face(new hb.Blob(sfnt)));
  const buffer = new hb.Buffer();
  buffer.addText(text);
  buffer.guessSegmentProperties();
  hb.shape(font, buffer);
  const positions = buffer.getGlyphPositions();
  return buffer.getGlyphInfos().map((g, i) => [g.codepoint, positions[i]!.xAdvance]);
}
