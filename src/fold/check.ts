/** The fold check: every law that a net must obey before a sheet is spent on it. */
import {
  bounds,
  distanceToPath,
  endOf,
  isFinitePath,
  isSimple,
  signedArea,
} from '../geom/index.js';
import type { EdgeRef, Net, Panel, PanelRef } from '../model.js';
import { FOLD_FACET_MM, SAME_POINT_MM } from '../units/tolerances.js';
import { creasesOf, edgesOf } from './edges.js';
import { type Face, faceOf, overlapDepth } from './face.js';
import type { Finding } from './finding.js';
import { type Closed, closureFindings, curveFindings, joinFindings, mm } from './joins.js';
import { drawNet } from './outline.js';
import { foldOrder, isStraight, type Pose, pose } from './pose.js';
import { restFindings } from './rests.js';
import { ringFindings } from './ring.js';
import { collisions } from './through.js';

/**
 * What is wrong with a net; nothing when it is sound. The facts come first: while those are broken
 * (numbers, tree, hinges) nothing is folded.
 */
export function checkNet(net: Net): Finding[] {
  const facts = [...finiteFindings(net), ...treeFindings(net)];
  if (facts.length > 0) return facts;
  const hinges = hingeFindings(net);
  if (hinges.length > 0) return hinges;
  const faces = net.panels.map(faceOf);
  const box: Closed = {
    net,
    faces: new Map(faces.map(f => [f.panel.id, f])),
    pose: pose(net),
  };
  return [
    ...outlineFindings(net),
    ...overlapFindings(faces),
    ...curveFindings(box, curvedHinges(net)),
    ...ringFindings(box),
    ...joinFindings(box),
    ...closureFindings(box),
    ...restFindings(box),
    ...collisionFindings(net, box.pose, faces, true),
  ];
}

function finiteFindings(net: Net): Finding[] {
  const bad = (panels: string[], what: string): Finding => ({
    law: 'finite',
    panels,
    measured: Number.NaN,
    allowed: 0,
    message: `${what} is not a number`,
  });
  const numbers = (p: Panel): readonly number[] =>
    p.bend
      ? [
          ...p.bend.from,
          ...p.bend.across,
          ...p.bend.stretches.flatMap(s => [s.length, s.turn, 1 / s.length]),
        ]
      : [];
  const refs: (PanelRef | EdgeRef)[] = net.joins.flatMap(j => [j.a, j.b]);
  const edges = refs.flatMap(e => ('along' in e ? [e] : []));
  return [
    ...net.panels
      .filter(
        p =>
          ![p.outline, ...p.holes, ...p.strokes.map(s => s.path)].every(isFinitePath) ||
          !numbers(p).every(Number.isFinite),
      )
      .map(p => bad([p.id], `a measure of ${p.id}`)),
    ...creasesOf(net)
      .filter(
        h => !isFinitePath(h.along) || !Number.isFinite(h.angle + (h.lift ?? 0) + (h.packed ?? 0)),
      )
      .map(h => bad([h.parent, h.child], `a measure of the hinge ${h.parent}–${h.child}`)),
    ...edges.filter(e => !isFinitePath(e.along)).map(e => bad([e.panel], 'an edge that must meet')),
    ...net.closures
      .filter(c => ![...c.at, c.diameter].every(Number.isFinite))
      .map(c => bad([c.a, c.b], 'a closure')),
    ...(Number.isFinite(net.thickness) ? [] : [bad([], 'the thickness')]),
  ];
}

function treeFindings(net: Net): Finding[] {
  const findings: Finding[] = [];
  const say = (message: string, panels: string[] = []) =>
    findings.push({ law: 'tree', panels, measured: panels.length, allowed: 0, message });
  const ids = new Set<string>();
  for (const { id } of net.panels) {
    if (ids.has(id)) say(`two panels are called ${id}`, [id]);
    ids.add(id);
  }
  const named = [
    net.root,
    ...creasesOf(net).flatMap(h => [h.parent, h.child]),
    ...net.joins.flatMap(j => [j.a.panel, j.b.panel]),
    ...net.closures.flatMap(c => [c.a, c.b]),
    ...(net.rests ?? []).map(r => r.panel),
  ];
  for (const id of new Set(named)) if (!ids.has(id)) say(`there is no panel ${id}`, [id]);
  if (findings.length > 0) return findings;
  try {
    foldOrder(net);
  } catch (e) {
    say((e as Error).message);
  }
  return findings;
}

function hingeFindings(net: Net): Finding[] {
  return edgesOf(net).astray.map(({ hinge, panel }): Finding => {
    const { outline } = net.panels.find(p => p.id === panel)!;
    const ends = [hinge.along.start, endOf(hinge.along)];
    const measured = Math.max(...ends.map(p => distanceToPath(p, outline)));
    const how =
      measured > SAME_POINT_MM
        ? `is ${mm(measured)} off the outline of ${panel}`
        : `does not run along the outline of ${panel} the right way round`;
    return {
      law: 'hinge',
      panels: [hinge.parent, hinge.child],
      where: hinge.along.start,
      measured,
      allowed: SAME_POINT_MM,
      message: `the hinge ${hinge.parent}–${hinge.child} ${how}`,
    };
  });
}

function outlineFindings(net: Net): Finding[] {
  const say = (panels: string[], message: string): Finding => ({
    law: 'outline',
    panels,
    measured: 1,
    allowed: 0,
    message,
  });
  const findings: Finding[] = [];
  for (const p of net.panels) {
    if (!(signedArea(p.outline) > 0))
      findings.push(say([p.id], `${p.id} runs the wrong way round`));
    else if (!isSimple(p.outline))
      findings.push(say([p.id], `the outline of ${p.id} crosses itself`));
  }
  if (findings.length > 0) return findings;
  try {
    const { outline } = drawNet(net);
    if (!isSimple(outline)) findings.push(say([], `the outline of ${net.id} crosses itself`));
  } catch (e) {
    findings.push(say([], (e as Error).message));
  }
  return findings;
}

/** No two panels ask for the same paper. */
function overlapFindings(faces: readonly Face[]): Finding[] {
  const boxes = faces.map(f => bounds(f.panel.outline));
  const findings: Finding[] = [];
  for (let i = 0; i < faces.length; i++) {
    for (let j = i + 1; j < faces.length; j++) {
      const [p, q] = [boxes[i]!, boxes[j]!];
      if (p.minX >= q.maxX || q.minX >= p.maxX || p.minY >= q.maxY || q.minY >= p.maxY) continue;
      const { depth, at } = overlapDepth(faces[i]!, faces[j]!);
      if (depth <= FOLD_FACET_MM) continue;
      const panels = [faces[i]!.panel.id, faces[j]!.panel.id];
      findings.push({
        law: 'overlap',
        panels,
        where: at,
        measured: depth,
        allowed: FOLD_FACET_MM,
        message: `${panels.join(' and ')} overlap in the flat by ${mm(depth)}`,
      });
    }
  }
  return findings;
}

/** Hinges that flat panels alone do not keep closed. */
const curvedHinges = (net: Net) => {
  const curled = new Set(net.panels.filter(p => p.bend).map(p => p.id));
  return net.hinges.filter(
    h => !isStraight(h.along) || curled.has(h.parent) || curled.has(h.child),
  );
};

/** What passes through what, at any moment of folding; `closed` as in `collisions`. */
export function collisionFindings(
  net: Net,
  at: Pose,
  faces: readonly Face[] = net.panels.map(faceOf),
  closed = false,
): Finding[] {
  return collisions(net, at, { closed }, faces).map(c => ({
    law: c.kind,
    panels: [c.a, c.b],
    where: c.where,
    measured: c.measured,
    allowed: c.allowed,
    message:
      c.kind === 'through'
        ? `${c.a} and ${c.b} pass through each other by ${mm(c.measured)}`
        : `${c.a} and ${c.b} lie ${mm(c.measured)} apart, less than the paper is thick`,
  }));
}
