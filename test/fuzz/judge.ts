/** What a style makes of a case: a sound net, a refusal that helps, or a fault. */
import type { BoxStyle } from '../../src/contracts.js';
import { checkNet, proveNet, togetherFindings } from '../../src/fold/index.js';
import type { Net } from '../../src/model.js';
import { fillParams, ParamError } from '../../src/params.js';
import type { Case } from './draw.js';

export type Verdict =
  | { readonly kind: 'sound' }
  | { readonly kind: 'refused'; readonly param: string; readonly bound: number | undefined }
  | { readonly kind: 'fault'; readonly what: string };

const SIZES = ['length', 'width', 'height', 'thickness'];

/** `way`: whether an order of folding is looked for as well. */
export function judge(style: BoxStyle, { spec, given }: Case, way: boolean): Verdict {
  let nets: readonly Net[];
  try {
    nets = style.build(spec, fillParams(style.params, given));
  } catch (error) {
    return error instanceof ParamError ? refusal(style, error) : crash(error);
  }
  if (nets.length === 0) return { kind: 'fault', what: 'no net' };
  try {
    const found = nets.flatMap(net => {
      const findings = way ? proveNet(net).findings : checkNet(net);
      return findings.map(f => `${net.id}: ${f.law}: ${f.message}`);
    });
    if (nets.some(net => net.stands)) {
      found.push(...togetherFindings(nets).map(f => `together: ${f.law}: ${f.message}`));
    }
    if (found.length === 0) return { kind: 'sound' };
    const more = found.length > 1 ? ` (and ${found.length - 1} more)` : '';
    return { kind: 'fault', what: `${found[0]}${more}` };
  } catch (error) {
    return crash(error);
  }
}

function crash(error: unknown): Verdict {
  const { name, message, stack = '' } = error as Error;
  const at = /at .*?(\w[\w-]*\.ts:\d+)/.exec(stack)?.[1] ?? '';
  return { kind: 'fault', what: `${name}: ${message} (${at})` };
}

/** A refusal names a parameter that exists, and its bound, in numbers that exist. */
function refusal(style: BoxStyle, error: ParamError): Verdict {
  const { param, allowed, advice, message } = error;
  const fault = (what: string): Verdict => ({ kind: 'fault', what: `${what}: ${message}` });
  if (!SIZES.includes(param) && !Object.hasOwn(style.params, param)) {
    return fault(`refused for "${param}", which is no parameter`);
  }
  if (/NaN|Infinity|undefined|null/.test(`${allowed} ${advice}`)) return fault('no number');
  const kind = style.params[param]?.kind;
  const inWords = kind === 'flag' || kind === 'choice' || kind === 'text';
  if (!inWords && !/\d/.test(allowed)) return fault('refused without a bound');
  if (/-\d/.test(allowed)) return fault('a bound below nothing');
  if (advice.length <= 5) return fault('refused without advice');
  return { kind: 'refused', param, bound: boundIn(error) };
}

/** The length or count that a refusal allows, mm: of a range, its nearer end. */
function boundIn({ allowed, value }: ParamError): number | undefined {
  const numbers = [...allowed.matchAll(/(?<![\w.])(\d+(?:\.\d+)?)(?= mm|°|,| to |$)/g)].map(m =>
    Number(m[1]),
  );
  const range = /^(?:a whole number )?(?:0, or )?from /.test(allowed)
    ? numbers.slice(0, 2)
    : numbers.slice(0, 1);
  const far = (n: number) => Math.abs(n - Number(value));
  return range.sort((p, q) => far(p) - far(q))[0];
}

/** A person takes the advice: the parameter is set to its bound, or just past it, since it is shown
 *  rounded. Nothing where no number is told, or it is the paper that is wrong. */
export function mended(
  { spec, given }: Case,
  { param, bound }: Extract<Verdict, { kind: 'refused' }>,
): Case | undefined {
  if (bound === undefined || param === 'thickness') return undefined;
  const { inside } = spec;
  if (param === 'length' || param === 'width' || param === 'height') {
    const was = inside[param];
    return { given, spec: { ...spec, inside: { ...inside, [param]: nudged(was, bound) } } };
  }
  return { spec, given: { ...given, [param]: nudged(Number(given[param]), bound) } };
}
/** 0.01 mm further from what was refused than the bound; whole numbers as they are. */
const nudged = (was: number, bound: number): number => {
  if (Number.isInteger(bound)) return bound;
  return bound + (was > bound ? -0.01 : 0.01);
};

/** After so many refusals in a row a person gives up. */
const MOST_MENDS = 6;

/** The verdict on a case, and on what becomes of it when each refusal is obeyed. */
export function judgeMended(style: BoxStyle, first: Case, way: boolean) {
  let at = first;
  const verdict = judge(style, at, way);
  let last = verdict;
  for (let i = 0; i < MOST_MENDS && last.kind === 'refused'; i++) {
    const next = mended(at, last);
    if (!next) break;
    at = next;
    last = judge(style, at, way);
  }
  return { verdict, last, at };
}

/** The same fault with as little said as possible: sizes of the example, parameters left out. */
export function smaller(style: BoxStyle, found: Case, way: boolean): Case {
  const law = (c: Case) => {
    const verdict = judge(style, c, way);
    return verdict.kind === 'fault' ? verdict.what.split(':').slice(0, 2).join(':') : undefined;
  };
  const was = law(found);
  let least = found;
  const attempt = (c: Case) => {
    if (was !== undefined && law(c) === was) least = c;
  };
  for (const name of Object.keys(found.given)) {
    const { [name]: _, ...given } = least.given;
    attempt({ ...least, given });
  }
  for (const side of ['length', 'width', 'height'] as const) {
    const inside = { ...least.spec.inside, [side]: style.example[side] };
    attempt({ ...least, spec: { ...least.spec, inside } });
  }
  attempt({ ...least, spec: { ...least.spec, thickness: 0.3 } });
  return least;
}
