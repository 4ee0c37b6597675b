/** The order in which tables that hold a client are tried, one criterion after the other, each with its words. */
import { STATUSES } from '../evidence/schema/words.ts';
import type { Candidate, Subject } from './select.ts';

export interface Criterion {
  /** Negative where `a` fits better. */
  readonly compare: (a: Candidate, b: Candidate, subject: Subject) => number;
  /** Why the better of two that this criterion tells apart goes before the other: "... because" + words. */
  readonly words: string;
  /** The same of the other one, by itself. */
  readonly behind: string;
}

const preferred = (candidate: Candidate, subject: Subject): number =>
  subject.preferredCountry !== undefined && candidate.table.population.country.includes(subject.preferredCountry) ? 0 : 1;
const isDefault = (candidate: Candidate): number => (Number.isFinite(candidate.defaultRank) ? 0 : 1);
const statusRank = ({ row, table }: Candidate): number => STATUSES.indexOf(row.status ?? table.status);
const size = ({ row, table }: Candidate): number => row.n ?? table.n ?? 0;
const compareRanks = (a: number, b: number): number => (a === b ? 0 : a < b ? -1 : 1);

/** The last criterion: it always tells two tables apart. */
export const BY_ID: Criterion = {
  words: 'nothing else tells them apart and its id comes first',
  behind: 'nothing tells them apart but the order of the ids',
  compare: (a, b) => (a.table.source < b.table.source ? -1 : 1),
};

/** The stated order of fit: the first criterion that tells two tables apart decides. */
export const ORDER_OF_FIT: readonly Criterion[] = [
  {
    words: 'the other is shown for orientation only',
    behind: 'shown for orientation only: not a sample of the general population',
    compare: (a, b) => Number(a.orientationOnly) - Number(b.orientationOnly),
  },
  {
    words: "it does not depend on the client's sex, which is not recorded",
    behind: "of one sex, and the client's is not recorded",
    compare: (a, b) => Number(a.sexUncertain) - Number(b.sexUncertain),
  },
  {
    words: 'only it is a default table of this test',
    behind: 'not a default table of this test',
    compare: (a, b) => isDefault(a) - isDefault(b),
  },
  {
    words: 'its protocol agrees better with how the test was done',
    behind: 'its protocol agrees less with how the test was done',
    compare: (a, b) => a.protocolConflicts - b.protocolConflicts,
  },
  {
    words: 'it is from the preferred country',
    behind: 'not from the preferred country',
    compare: (a, b, subject) => preferred(a, subject) - preferred(b, subject),
  },
  {
    words: 'it comes first in the order of defaults',
    behind: 'comes later in the order of defaults',
    compare: (a, b) => compareRanks(a.defaultRank, b.defaultRank),
  },
  { words: 'its age band is narrower', behind: 'its age band is wider', compare: (a, b) => a.bandWidth - b.bandWidth },
  {
    words: "it has a row for the client's sex",
    behind: 'both sexes together',
    compare: (a, b) => Number(a.row.sex === 'all') - Number(b.row.sex === 'all'),
  },
  {
    words: 'it is a sample of the general population',
    behind: 'a sample of healthy volunteers',
    compare: (a, b) => Number(a.table.population.kind !== 'general') - Number(b.table.population.kind !== 'general'),
  },
  {
    words: 'it was read more closely to its source',
    behind: 'read less closely to its source',
    compare: (a, b) => statusRank(a) - statusRank(b),
  },
  { words: 'more people were measured', behind: 'fewer people were measured', compare: (a, b) => size(b) - size(a) },
  BY_ID,
];
