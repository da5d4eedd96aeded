/** The folded view: what is looked at, from where, and painted when something has changed. */
import { place } from '../../fold/pose.js';
import { moved, type Point3 } from '../../fold/space.js';
import { project, type ViewPoint } from '../../fold/view.js';
import { vertices } from '../../geom/index.js';
import type { PreviewFacts, PreviewTreat } from '../../preview-model.js';
import { type ClearSpace, carried, clearSpace } from '../room.js';
import { LIFTED_MM, type Scene, sceneOf } from '../scene.js';
import { Stage, type Standee } from '../stage.js';
import { paintGhost } from './ghost.js';
import { type Frame, paintScene, paintShadow, shadowFall } from './paint.js';
import { Papers } from './papers.js';

const FIRST_VIEW: ViewPoint = { azimuth: -1.08, elevation: 0.52 };
/** Share of the canvas left free around what is seen. */
const MARGIN = 0.07;

export class FoldedView {
  readonly stage: Stage;
  moment = 0;
  lifted = 0;
  ghost = false;
  private view = FIRST_VIEW;
  private zoom = 1;
  private readonly papers: Papers;
  private kept:
    | { readonly key: string; readonly stood: Standee[]; readonly scene: Scene }
    | undefined;
  private clear: ClearSpace | undefined;
  private asked = false;
  private printing = false;
  /** The most pieces on one face. */
  private readonly layers: number;
  /** Milliseconds that the last paintings took. */
  readonly took: number[] = [];

  constructor(
    readonly canvas: HTMLCanvasElement,
    private readonly facts: PreviewFacts,
  ) {
    this.stage = new Stage(facts);
    this.papers = new Papers(facts.pieces);
    const faces = new Map<string, number>();
    for (const { net, panel, side } of facts.decals) {
      const face = `${net} ${panel} ${side}`;
      faces.set(face, (faces.get(face) ?? 0) + 1);
    }
    this.layers = Math.max(0, ...faces.values());
  }

  turn(azimuth: number, elevation: number): void {
    const most = Math.PI / 2;
    this.view = {
      azimuth: this.view.azimuth + azimuth,
      elevation: Math.min(most, Math.max(-most, this.view.elevation + elevation)),
    };
    this.ask();
  }

  nearer(by: number): void {
    this.zoom = Math.min(6, Math.max(0.5, this.zoom * by));
    this.ask();
  }

  reset(): void {
    this.view = FIRST_VIEW;
    this.zoom = 1;
    this.ask();
  }

  /** For the printer: dark on white, whatever the screen looks like. */
  set forPrint(on: boolean) {
    this.printing = on;
    this.paint();
  }

  /** Paints before the screen is next drawn, once however often it is asked. */
  ask(): void {
    if (this.asked) return;
    this.asked = true;
    requestAnimationFrame(() => {
      this.asked = false;
      this.paint();
    });
  }

  paint(): void {
    const begun = performance.now();
    const { canvas } = this;
    const dpr = Math.min(2, window.devicePixelRatio || 1);
    const [width, height] = [canvas.clientWidth * dpr, canvas.clientHeight * dpr].map(Math.round);
    if (!width || !height) return;
    if (canvas.width !== width || canvas.height !== height) {
      canvas.width = width;
      canvas.height = height;
    }
    const ctx = canvas.getContext('2d')!;
    ctx.setTransform(1, 0, 0, 1, 0, 0);
    ctx.clearRect(0, 0, width, height);
    const { stood, scene } = this.look();
    const frame = this.frame(width, height);
    if (this.view.elevation > 0.05) {
      paintShadow(ctx, stood, this.view, frame, this.printing ? 0.08 : 0.17);
    }
    const top = this.stage.extent(this.stage.length).high[2];
    paintScene(ctx, scene, this.view, frame, this.facts, this.papers, dpr, top);
    if (this.ghost && this.facts.treat) {
      const room = this.room(this.facts.treat, stood);
      const ink = getComputedStyle(canvas).getPropertyValue('--ghost').trim();
      paintGhost(ctx, this.facts.treat, room, this.view, frame, dpr, ink || '#7a2e4d');
    }
    this.took.push(performance.now() - begun);
    if (this.took.length > 600) this.took.shift();
  }

  /** Every corner of every panel, as it is painted: mm on the table. */
  positions(): { net: string; panel: string; points: Point3[] }[] {
    return this.look().stood.flatMap(({ net, poses, world }) =>
      poses.map(p => ({
        net: net.id,
        panel: p.panel.id,
        points: vertices(p.panel.outline).map(v => moved(world, place(p, v))),
      })),
    );
  }

  private room({ inside, within }: PreviewTreat, stood: readonly Standee[]) {
    this.clear ??= clearSpace(this.stage, inside, within);
    const { part } = this.clear;
    return carried(this.clear, this.stage.at(this.stage.length)[part]!, stood[part]!);
  }

  private look() {
    const key = `${this.moment} ${this.lifted}`;
    if (this.kept?.key === key) return this.kept;
    const stood = this.stage.at(this.moment);
    this.kept = { key, stood, scene: sceneOf(stood, this.facts, this.lifted) };
    return this.kept;
  }

  private frame(width: number, height: number): Frame {
    const { low, high: top } = this.stage.extent(this.moment);
    // Lifted layers reach out of the box.
    const high: Point3 = [top[0], top[1], top[2] + this.lifted * LIFTED_MM * this.layers];
    const corners = [low, high].flatMap(a =>
      [low, high].flatMap(b => [low, high].map(c => project([a[0], b[1], c[2]], this.view))),
    );
    // The shadow on the table is part of the picture.
    const [sx, sy] = shadowFall(this.view);
    const fall = top[2] - low[2];
    for (const x of [low[0], high[0]]) {
      for (const y of [low[1], high[1]]) {
        corners.push(project([x + sx * fall, y + sy * fall, low[2]], this.view));
      }
    }
    const xs = corners.map(c => c[0]);
    const ys = corners.map(c => c[1]);
    const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
    const [y0, y1] = [Math.min(...ys), Math.max(...ys)];
    const room = 1 - 2 * MARGIN;
    const fit = Math.min((width * room) / (x1 - x0), (height * room) / (y1 - y0));
    const k = fit * this.zoom;
    return {
      k,
      x: width / 2 - (k * (x0 + x1)) / 2,
      y: height / 2 + (k * (y0 + y1)) / 2,
    };
  }
}
