/** Values to try a variant with: its default, each bound in turn, and seeded mixtures. */
import fc from 'fast-check';
import type { ParamValue } from '../../src/model.js';
import type { ParamSpec, ParamTable } from '../../src/params.js';

type Given = Record<string, ParamValue>;

function ends(spec: ParamSpec): ParamValue[] {
  switch (spec.kind) {
    case 'flag':
      return [true, false];
    case 'choice':
      return [...spec.choices];
    case 'text':
      return [spec.default];
    default:
      return [spec.least, spec.most];
  }
}

function any(spec: ParamSpec): fc.Arbitrary<ParamValue> {
  switch (spec.kind) {
    case 'flag':
      return fc.boolean();
    case 'choice':
      return fc.constantFrom(...spec.choices);
    case 'text':
      return fc.constant(spec.default);
    case 'count':
      return fc.integer({ min: spec.least, max: spec.most });
    default: {
      // Four hundred even steps: doubles drawn at random would nearly all be tiny.
      const { least, most } = spec;
      return fc.integer({ min: 0, max: 400 }).map(n => least + ((most - least) * n) / 400);
    }
  }
}

export function samples(table: ParamTable, mixtures: number, seed = 17): Given[] {
  const one = Object.entries(table).flatMap(([name, spec]) =>
    ends(spec).map((value): Given => ({ [name]: value })),
  );
  const record = Object.fromEntries(Object.entries(table).map(([n, spec]) => [n, any(spec)]));
  return [{}, ...one, ...fc.sample(fc.record(record), { seed, numRuns: mixtures })];
}
