/** Turning by mouse, touch and keyboard; two fingers and the wheel go nearer. */
import type { FoldedView } from './canvas.js';

/** Radians to the pixel, and to the press of a key. */
const DRAG = 0.008;
const PRESS = Math.PI / 24;
const NEARER = 1.15;

export function handle(canvas: HTMLCanvasElement, view: FoldedView): void {
  const down = new Map<number, { x: number; y: number }>();
  const apart = () => {
    const [a, b] = [...down.values()];
    return a && b ? Math.hypot(a.x - b.x, a.y - b.y) : 0;
  };
  canvas.addEventListener('pointerdown', event => {
    canvas.setPointerCapture(event.pointerId);
    down.set(event.pointerId, { x: event.clientX, y: event.clientY });
  });
  canvas.addEventListener('pointermove', event => {
    const from = down.get(event.pointerId);
    if (!from) return;
    const [dx, dy] = [event.clientX - from.x, event.clientY - from.y];
    const span = apart();
    down.set(event.pointerId, { x: event.clientX, y: event.clientY });
    if (down.size === 1) view.turn(-dx * DRAG, dy * DRAG);
    else if (span > 0) view.nearer(apart() / span);
  });
  const up = (event: PointerEvent) => down.delete(event.pointerId);
  canvas.addEventListener('pointerup', up);
  canvas.addEventListener('pointercancel', up);
  canvas.addEventListener('dblclick', () => view.reset());
  canvas.addEventListener(
    'wheel',
    event => {
      if (!event.ctrlKey && document.activeElement !== canvas) return;
      event.preventDefault();
      view.nearer(event.deltaY < 0 ? NEARER : 1 / NEARER);
    },
    { passive: false },
  );
  const keys: Readonly<Record<string, () => void>> = {
    ArrowLeft: () => view.turn(PRESS, 0),
    ArrowRight: () => view.turn(-PRESS, 0),
    ArrowUp: () => view.turn(0, PRESS),
    ArrowDown: () => view.turn(0, -PRESS),
    '+': () => view.nearer(NEARER),
    '=': () => view.nearer(NEARER),
    '-': () => view.nearer(1 / NEARER),
    '0': () => view.reset(),
  };
  canvas.addEventListener('keydown', event => {
    const act = keys[event.key];
    if (!act || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    act();
  });
}
