/** What the manifest says of nets: the laws that were checked, and how each is put together. */
import { signedArea } from '../geom/index.js';
import type { AssemblyStep, GlueArea, Net } from '../model.js';
import { list, number, object, oneOf, text, truth } from './checked-json.js';
import { rounded } from './number.js';

interface Fold {
  readonly parent: string;
  readonly child: string;
}
export interface ManifestStep {
  readonly step: number;
  /** Folded in this step, all at once. */
  readonly hinges: readonly Fold[];
  /** The panels that move. */
  readonly panels: readonly string[];
  /** What meets at the end of the step, for good: panel `a` on, behind or at panel `b`. */
  readonly joins: readonly { readonly kind: string; readonly a: string; readonly b: string }[];
  /** Flaps that are bent aside for a moment. */
  readonly springs: readonly { readonly panel: string; readonly byMm: number }[];
}
export interface ManifestNet {
  readonly item: string;
  readonly net: string;
  readonly thicknessMm: number;
  /** Whether it obeys all the laws that the manifest lists. */
  readonly sound: boolean;
  /** What it breaks. */
  readonly findings: readonly string[];
  /** Hinges at which the paper must bend. */
  readonly curvedHinges: readonly Fold[];
  readonly steps: readonly ManifestStep[];
  /** Where glue goes: on which face of `panel`, and what is glued there. */
  readonly glue: readonly ManifestGlue[];
}
export interface ManifestGlue {
  readonly panel: string;
  readonly face: 'inside' | 'outside';
  readonly onto: string;
  readonly areaMm2: number;
  /** Outlined by the pen on the sheet, or only shown in the guide. */
  readonly shown: 'draw' | 'guide';
}

/** What a run knows of one net. */
export interface NetFacts {
  readonly item: string;
  readonly net: Net;
  readonly findings: readonly string[];
  readonly curved: readonly Fold[];
  readonly steps: readonly AssemblyStep[];
  readonly glue: readonly GlueArea[];
}

export const netEntry = ({ item, net, findings, curved, steps, glue }: NetFacts): ManifestNet => ({
  item,
  net: net.id,
  thicknessMm: rounded(net.thickness, 4),
  sound: findings.length === 0,
  findings,
  curvedHinges: curved,
  steps: steps.map(({ step, hinges, panels, joins, springs }) => ({
    step,
    hinges,
    panels,
    joins: joins.map(i => {
      const { kind, a, b } = net.joins[i]!;
      return { kind, a: a.panel, b: b.panel };
    }),
    springs: springs.map(s => ({ panel: s.panel, byMm: rounded(s.by, 2) })),
  })),
  glue: glue.map(({ panel, face, onto, area, drawn }) => ({
    panel,
    face,
    onto,
    areaMm2: rounded(Math.abs(signedArea(area)), 2),
    shown: drawn ? 'draw' : 'guide',
  })),
});

const strings = list(text());
const folds = list(object({ parent: text(), child: text() }));

export const CHECK_NETS = list(
  object({
    item: text(),
    net: text(),
    thicknessMm: number(0),
    sound: truth,
    findings: strings,
    curvedHinges: folds,
    steps: list(
      object({
        step: number(1),
        hinges: folds,
        panels: strings,
        joins: list(object({ kind: oneOf('glue', 'edge', 'tuck', 'lock'), a: text(), b: text() })),
        springs: list(object({ panel: text(), byMm: number(0) })),
      }),
    ),
    glue: list(
      object({
        panel: text(),
        face: oneOf('inside', 'outside'),
        onto: text(),
        areaMm2: number(0),
        shown: oneOf('draw', 'guide'),
      }),
    ),
  }),
);
