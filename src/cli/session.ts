/** A job that has been read, with the tools to make it: the same on the main thread and on workers. */
import type { GuidePaper } from '../guide-model.js';
import { formatFaults, type ReadJob, readJob, type Source, STANDARD } from '../job/index.js';
import type { Design, DxfKind, FormatId } from '../model.js';
import { type FontFiles, MOTIFS, makeMotifTools, PATTERNS } from '../motifs/index.js';
import type { Kit } from '../pipeline.js';
import { FEATURES } from '../styles/features/index.js';
import { STYLES } from '../styles/index.js';
import { type Environment, InputError } from './environment.js';
import { ownDrawings } from './own-drawings.js';
import { ownFiles } from './own-files.js';
import { readFonts, readPageFaces, readPresets } from './preset-files.js';

/** What the command line changes about a job. */
export interface Overrides {
  readonly formats?: readonly FormatId[] | undefined;
  readonly dxf?: DxfKind | undefined;
  readonly compensatedBy?: 'file' | 'cutter' | undefined;
  readonly guidePaper?: GuidePaper | undefined;
  /** Previews are wanted, whatever the formats. */
  readonly look?: true | undefined;
}

export interface Session {
  readonly design: Design;
  readonly kit: Kit;
  readonly faultOf: ReadJob['faultOf'];
}

/** The face of captions on printed sheets and of headings in guides, and that of running text. */
const CAPTION_FACE = 'nunito-bold';
const TEXT_FACE = 'nunito';

/** Reads a job with everything it may name. Throws `InputError` with all of its faults. */
export function openSession(
  source: Source,
  overrides: Overrides,
  environment: Pick<Environment, 'presetsDir' | 'cwd'>,
): Session {
  const own = ownFiles(source.file, environment.cwd);
  const fonts = readFonts(environment, own);
  const presets = readPresets(environment);
  // By its colours the lines of a person's drawing are told apart, where nothing else says so.
  const standard = presets.get('convention', STANDARD.convention);
  const colours = 'value' in standard ? standard.value : undefined;
  const drawing = ownDrawings(own, colours);
  const tools = { ...makeMotifTools({ fonts }), drawing };
  const read = readJob(source, {
    styles: STYLES,
    features: FEATURES,
    motifs: MOTIFS,
    patterns: PATTERNS,
    presets,
    tools,
    readList: name => own.text(name, 'list'),
  });
  const bold = [...faceIn(fonts, CAPTION_FACE), ...readPageFaces(environment, 'bold')];
  if ('faults' in read) throw new InputError(formatFaults(read.faults));
  return {
    design: overridden(read.design, overrides),
    kit: {
      styles: STYLES,
      features: FEATURES,
      tools,
      captionFonts: { font: bold },
      guideFonts: {
        regular: [...faceIn(fonts, TEXT_FACE), ...readPageFaces(environment, 'regular')],
        bold,
      },
    },
    faultOf: read.faultOf,
  };
}

function faceIn(fonts: FontFiles, name: string): readonly Uint8Array[] {
  const found = fonts.get(name);
  if (!found) throw new Error(`the face ${name} is missing from the presets`);
  return found instanceof Uint8Array ? [found] : found;
}

/** The face of captions, out of all faces. */
export const captionFonts = (fonts: FontFiles): Kit['captionFonts'] => ({
  font: faceIn(fonts, CAPTION_FACE),
});

function overridden(design: Design, overrides: Overrides): Design {
  const { compensatedBy, guidePaper = design.guidePaper } = overrides;
  const { dxf = design.importing.dxf } = overrides;
  const asked = overrides.formats ?? design.formats;
  const seen = overrides.look && !asked.includes('preview');
  const formats: readonly FormatId[] = seen ? [...asked, 'preview'] : asked;
  const { cutter } = design;
  const blade = compensatedBy ? { ...cutter.blade, compensatedBy } : cutter.blade;
  return {
    ...design,
    formats,
    guidePaper,
    cutter: { ...cutter, blade },
    importing: { ...design.importing, dxf },
  };
}
