/** From the basis of a statement in `norms/` to what the reports show of it. */
import type { Based } from '../assessment.ts';
import type { Basis } from './schema/common.ts';

/** An own rule and a rule of the trade have no source; their note stands in the place of the location. */
export function basedOn(basis: Basis): Based {
  if ('source' in basis) return { source: basis.source, basis: basis.status, location: basis.location };
  return { source: null, basis: 'own_rule' in basis ? 'own-rule' : 'common-practice', location: basis.note };
}

/** Every source a basis rests on, with where: its own, and those that informed a rule of the program's own. */
export function citationsOf(
  basis: Basis,
): { readonly source: string; readonly location: string; readonly status: Based['basis'] }[] {
  if ('source' in basis) return [basis];
  return 'informed_by' in basis ? basis.informed_by : [];
}
