/** One step in a few sentences. */
import type { PartName } from '../model.js';
import type { Words } from '../words/english.js';
import type { FoldDone, GuideStep, Meeting } from './facts.js';
import { asTold } from './lengths.js';
import { namesOf, partName } from './names.js';

export function stepText(step: GuideStep, words: Words, unit: 'mm' | 'in'): string {
  const names = (ids: readonly string[]) => namesOf(ids, words);
  const named = (part: PartName) => partName(part, words);
  switch (step.kind) {
    case 'fold':
      return foldText(step, words);
    case 'splice':
      return words.splice(
        step.parts,
        step.joints.map(j => [words.panel(j.panel), words.panel(j.onto)]),
      );
    case 'film':
      return words.film(words.panel(step.panel), words.feature(step.feature));
    case 'seat':
      return words.seat(named(step.part), named(step.onto), names(step.panels));
    case 'join':
      return words.join(step.parts.map(named));
    case 'ribbon':
      return step.panels.length > 0 ? words.tie(names(step.panels)) : words.thread;
    case 'closures':
      return words.closures(
        step.closures.map(c => words.closure(c.means, c.count, asTold(c.diameter, unit))),
      );
  }
}

export function foldText(step: FoldDone, words: Words): string {
  const text = sentences(step, words).join(' ');
  return step.part === undefined ? text : words.ofPart(partName(step.part, words), text);
}

function sentences({ folds, glue, tuck, lock }: FoldDone, words: Words): string[] {
  const names = (ids: readonly string[]) => namesOf(ids, words);
  const ways = (['curl', 'up', 'back', 'over'] as const).flatMap(how => {
    const panels = folds.filter(f => f.how === how).map(f => f.panel);
    return panels.length > 0 ? [words.fold(how, names(panels), panels.length)] : [];
  });
  const by = (list: readonly Meeting[], say: (panels: string[], first: Meeting) => string) => {
    const groups = new Map<string, Meeting[]>();
    for (const m of list) {
      const key = `${m.onto} ${m.face ?? ''}`;
      groups.set(key, [...(groups.get(key) ?? []), m]);
    }
    return [...groups.values()].map(g => say(names(g.map(m => m.panel)), g[0]!));
  };
  const onto = (list: readonly Meeting[]) => names([...new Set(list.map(m => m.onto))]);
  const panels = (list: readonly Meeting[]) => names([...new Set(list.map(m => m.panel))]);
  const hooks = tuck.filter(t => t.edge);
  const whole = tuck.filter(t => !t.edge);
  const round = hooks.length > 2 && hooks.every(h => hooks.some(o => o.onto === h.panel));
  return [
    ...ways,
    ...by(glue, (list, { onto: to, face = 'inside' }) => words.glue(list, words.panel(to), face)),
    ...(whole.length > 2
      ? [words.tuck(panels(whole), onto(whole))]
      : by(whole, (list, m) => words.tuck(list, [words.panel(m.onto)]))),
    ...(round
      ? [words.ring(panels(hooks))]
      : by(hooks, (list, m) => words.hook(list, [words.panel(m.onto)]))),
    ...by(lock, (list, m) => words.lock(list, [words.panel(m.onto)])),
  ];
}
