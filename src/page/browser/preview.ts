/** The folding preview's page: its controls, and the two views. */
import type { PreviewFacts } from '../../preview-model.js';
import { filled } from '../../words/filled.js';
import { FoldedView } from './canvas.js';
import { button, element } from './elements.js';
import { handle } from './hands.js';
import { sheetsView } from './sheets.js';

/** Seconds that a step takes when it plays, and the layers to lift. */
const STEP_S = 1.5;
const LIFT_S = 0.5;

const facts = JSON.parse(document.getElementById('facts')!.textContent!) as PreviewFacts;
const { words } = facts;
const main = document.getElementById('preview')!;
main.replaceChildren();

const canvas = element('canvas', {
  tabindex: '0',
  role: 'img',
  'aria-label': filled(words.picture, { title: facts.title }),
  'aria-describedby': 'seen hands',
});
const view = new FoldedView(canvas, facts);
const { stage } = view;
const steps = stage.length;

// ---- The step in words -------------------------------------------------------------------------

const told = element('p', { class: 'step', 'aria-live': 'polite', id: 'step' });
const list = element('ol', { class: 'steps' });
const marks = stage.phases.map((phase, i) => {
  const go = button(phase.told, () => play(i, i + 1));
  const item = element('li', {}, go);
  list.append(item);
  return item;
});

function stepAt(moment: number): string {
  if (moment <= 0) return filled(words.flatNow, { steps });
  const last = stage.phases.at(-1);
  if (moment >= steps) {
    return last ? filled(words.closedAfter, { step: steps, told: last.told }) : words.closedNow;
  }
  const i = Math.ceil(moment) - 1;
  return filled(words.now, { step: i + 1, steps, told: stage.phases[i]!.told });
}

function tell() {
  const text = stepAt(view.moment);
  // The slider says it itself while it is held.
  told.setAttribute('aria-live', document.activeElement === slider ? 'off' : 'polite');
  if (told.textContent !== text) told.textContent = text;
  const now = view.moment <= 0 ? -1 : Math.ceil(view.moment) - 1;
  marks.forEach((m, i) => {
    if (i === now) m.setAttribute('aria-current', 'step');
    else m.removeAttribute('aria-current');
  });
}

// ---- Folding -----------------------------------------------------------------------------------

const slider = element('input', {
  type: 'range',
  min: '0',
  max: String(steps),
  step: '0.01',
  value: '0',
  id: 'fold',
});

function show(moment: number) {
  view.moment = Math.min(steps, Math.max(0, moment));
  slider.value = String(view.moment);
  slider.setAttribute('aria-valuetext', stepAt(view.moment));
  tell();
  view.ask();
}

slider.addEventListener('input', () => {
  stop();
  show(Number(slider.value));
});
// A press goes on by a part of a step that is seen; a page is a step.
slider.addEventListener('keydown', event => {
  const by: Record<string, number> = {
    ArrowRight: 0.1,
    ArrowUp: 0.1,
    ArrowLeft: -0.1,
    ArrowDown: -0.1,
    PageUp: 1,
    PageDown: -1,
  };
  const step = by[event.key];
  if (step === undefined) return;
  event.preventDefault();
  stop();
  show(Math.round((view.moment + step) * 100) / 100);
});

let playing: number | undefined;
const playButton = button(words.play, () => {
  if (playing !== undefined) stop();
  else play(view.moment >= steps ? 0 : view.moment, steps);
});

function stop() {
  if (playing !== undefined) cancelAnimationFrame(playing);
  playing = undefined;
  playButton.textContent = words.play;
}

/** Slow at both ends of every step. */
const eased = (t: number) => (t < 0.5 ? 2 * t * t : 1 - 2 * (1 - t) * (1 - t));

function play(from: number, to: number) {
  stop();
  playButton.textContent = words.pause;
  // Whoever asks for little movement gets the ends of the steps only.
  const still = matchMedia('(prefers-reduced-motion: reduce)').matches;
  const begun = performance.now();
  const whole = Math.floor(from);
  // Where in an eased step it begins.
  const part = from - whole;
  const offset = part < 0.5 ? Math.sqrt(part / 2) : 1 - Math.sqrt((1 - part) / 2);
  const frame = (now: number) => {
    const gone = whole + offset + Math.max(0, now - begun) / 1000 / STEP_S;
    const i = Math.floor(gone);
    const moment = Math.min(to, i + (still ? 1 : eased(gone - i)));
    show(moment);
    if (moment >= to) stop();
    else playing = requestAnimationFrame(frame);
  };
  playing = requestAnimationFrame(frame);
}

const byStep = (by: number) => () => {
  stop();
  show(by > 0 ? Math.floor(view.moment + 1) : Math.ceil(view.moment - 1));
};

// ---- What is shown -----------------------------------------------------------------------------

const toggle = (label: string, press: (on: boolean) => void) => {
  const made = button(label, () => set(made.getAttribute('aria-pressed') !== 'true'), {
    'aria-pressed': 'false',
  });
  const set = (on: boolean) => {
    made.setAttribute('aria-pressed', String(on));
    press(on);
  };
  return { button: made, set };
};

function lift(on: boolean) {
  const [from, begun] = [view.lifted, performance.now()];
  const still = matchMedia('(prefers-reduced-motion: reduce)').matches;
  const frame = (now: number) => {
    const t = still ? 1 : Math.min(1, Math.max(0, now - begun) / 1000 / LIFT_S);
    view.lifted = from + ((on ? 1 : 0) - from) * eased(t);
    view.ask();
    if (t < 1) requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
}

const lifting = toggle(words.lift, lift);
const ghost = toggle(facts.treat?.things.length ? words.ghost : words.room, on => {
  view.ghost = on;
  view.ask();
});
const extras = [
  ...(facts.decals.length > 0 ? [lifting.button] : []),
  ...(facts.treat ? [ghost.button] : []),
  button(words.reset, () => view.reset()),
];

const piece = element('p', { class: 'piece-told', 'aria-live': 'polite' });
const sayPiece = (text: string) => {
  piece.textContent = text;
};
sayPiece(words.point);

const folded = element(
  'section',
  { class: 'folded', 'aria-labelledby': 'box' },
  element('h2', { id: 'box', class: 'unseen' }, words.foldedBox),
  canvas,
  element('p', { id: 'seen', class: 'unseen' }, facts.decorated),
  element('p', { id: 'hands', class: 'hands' }, words.hands),
  element(
    'div',
    { class: 'folding' },
    playButton,
    button('‹', byStep(-1), { 'aria-label': words.back }),
    element('label', { for: 'fold', class: 'unseen' }, words.fold),
    slider,
    button('›', byStep(1), { 'aria-label': words.on }),
  ),
  told,
);
const flat = element('div', { class: 'flat' }, piece, sheetsView(facts, sayPiece));
const order = element(
  'section',
  { class: 'order', 'aria-labelledby': 'order' },
  element('h2', { id: 'order' }, words.order),
  list,
);

const tabs = [words.folded, words.flat].map((label, i) =>
  button(label, () => showView(i), { 'aria-pressed': 'false' }),
);
function showView(which: number) {
  tabs.forEach((t, i) => {
    t.setAttribute('aria-pressed', String(i === which));
  });
  main.dataset.view = which === 0 ? 'folded' : 'flat';
  if (which === 0) view.ask();
}

const turnTheme = () => {
  const root = document.documentElement;
  const dark = root.dataset.theme
    ? root.dataset.theme === 'dark'
    : matchMedia('(prefers-color-scheme: dark)').matches;
  root.dataset.theme = dark ? 'light' : 'dark';
  view.ask();
};
const theme = button(words.theme, turnTheme, { class: 'theme' });

document.querySelector('header')!.prepend(theme);
main.append(
  element(
    'div',
    { class: 'bar' },
    element('div', { class: 'views', role: 'group', 'aria-label': words.view }, ...tabs),
    element('div', { class: 'extras' }, ...extras),
  ),
  element('div', { class: 'stage' }, folded, order),
  flat,
);
handle(canvas, view);
new ResizeObserver(() => view.ask()).observe(canvas);

let before: number | undefined;
addEventListener('beforeprint', () => {
  stop();
  before = view.moment;
  show(steps);
  view.forPrint = true;
});
addEventListener('afterprint', () => {
  view.forPrint = false;
  if (before !== undefined) show(before);
});

showView(0);
show(steps);

/** For those who test the page. */
Object.assign(window, {
  preview: {
    positions: () => view.positions(),
    took: view.took,
    steps,
    show,
    play: () => play(0, steps),
  },
});
