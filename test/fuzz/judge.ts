/** What a style makes of a case: a sound net, a refusal that helps, or a fault. */
import type { BoxStyle } from '../../src/contracts.js';
import { checkNet, proveNet } from '../../src/fold/index.js';
import type { Net } from '../../src/model.js';
import { fillParams, ParamError } from '../../src/params.js';
import type { Case } from './draw.js';

export type Verdict =
  | { readonly kind: 'sound' }
  | { readonly kind: 'refused'; readonly param: string }
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
  return { kind: 'refused', param };
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
