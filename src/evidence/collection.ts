/** What the collection holds, one entry a paper, test and kind of number: for `norms list` and the counts in norms/README.md. */
import type { Evidence } from './data.ts';
import type { Status } from './schema/common.ts';
import { STATUSES } from './schema/words.ts';

export const ENTRY_KINDS = [
  'table',
  'cut_point',
  'measurement_error',
  'important_change',
  'likelihood_ratio',
  'fall_rate',
  'points',
  'bands',
] as const;
export type EntryKind = (typeof ENTRY_KINDS)[number];

export const KIND_WORDS: Readonly<Record<EntryKind, string>> = {
  table: 'Normative tables',
  cut_point: 'Cut-points',
  measurement_error: 'Measurement error',
  important_change: 'Important change',
  likelihood_ratio: 'Likelihood ratios',
  fall_rate: 'Fall rates',
  points: 'Points of a battery',
  bands: 'Bands of a total',
};

export interface CollectionEntry {
  readonly source: string;
  /** null for fall rates and for findings of the history, which concern no test. */
  readonly test: string | null;
  readonly kind: EntryKind;
  /** Where parts were read differently, the one read least closely. */
  readonly status: Status;
  readonly location: string;
  readonly citation: string;
  readonly doi: string | null;
  /** Rows of the tables, or rules. */
  readonly rows: number;
}

interface Found {
  readonly source: string;
  readonly test: string | null;
  readonly kind: EntryKind;
  readonly location: string;
  readonly statuses: readonly Status[];
  readonly rows: number;
}

const single = (
  kind: EntryKind,
  test: string | null,
  cited: { readonly source: string; readonly location: string; readonly status: Status },
): Found => ({ kind, test, source: cited.source, location: cited.location, statuses: [cited.status], rows: 1 });

function foundInTables(evidence: Evidence): Found[] {
  return evidence.tables.flatMap((table) =>
    table.parts.map((part) => ({
      kind: 'table' as const,
      source: table.source,
      test: table.test,
      location: part.location,
      statuses: part.rows.map((row) => row.status ?? table.status),
      rows: part.rows.length,
    })),
  );
}

/** One paper may give the error of a test, the change that matters, or both. */
function foundInErrors(evidence: Evidence): Found[] {
  return evidence.errors.flatMap((error) => {
    const important = error.mcid !== undefined || error.mcid_range !== undefined || error.mcid_substantial !== undefined;
    const repeat = [error.sem, error.mdc95, error.mdc90, error.mdc_level_unstated, error.mdc_percent, error.icc, error.by_score];
    return [
      ...(repeat.some((value) => value !== undefined) || !important ? [single('measurement_error', error.test, error)] : []),
      ...(important ? [single('important_change', error.test, error)] : []),
    ];
  });
}

function foundInDerived({ derived }: Evidence): Found[] {
  return derived.point_totals.flatMap((total) =>
    total.parts.flatMap((part) => part.items.flatMap((item) => item.bands.map((band) => single('points', total.test, band)))),
  );
}

const foundInCatalogue = ({ tests }: Evidence): Found[] =>
  tests.flatMap((test) => test.bands.flatMap(({ basis }) => ('source' in basis ? [single('bands', test.id, basis)] : [])));

const statusRank = (status: Status): number => STATUSES.indexOf(status);

function merged(evidence: Evidence, group: readonly Found[]): CollectionEntry[] {
  const [first] = group;
  if (first === undefined) return [];
  const statuses = group.flatMap((each) => each.statuses);
  const source = evidence.sources[first.source];
  return [
    {
      source: first.source,
      test: first.test,
      kind: first.kind,
      status: statuses.reduce((weakest, status) => (statusRank(status) > statusRank(weakest) ? status : weakest)),
      location: [...new Set(group.map((each) => each.location))].join('; '),
      citation: source?.citation ?? '',
      doi: source?.doi ?? null,
      rows: group.reduce((sum, each) => sum + each.rows, 0),
    },
  ];
}

/** In the order of the catalogue of tests, then of kinds, then by source; what concerns no test comes last. */
export function collectionOf(evidence: Evidence): CollectionEntry[] {
  const found = [
    ...foundInTables(evidence),
    ...evidence.cutPoints.map((cut) => single('cut_point', cut.test, cut)),
    ...foundInErrors(evidence),
    ...evidence.likelihoodRatios.map((ratio) => single('likelihood_ratio', ratio.test ?? null, ratio)),
    ...evidence.fallRates.map((rate) => single('fall_rate', null, rate)),
    ...foundInDerived(evidence),
    ...foundInCatalogue(evidence),
  ];
  const groups = new Map<string, Found[]>();
  for (const each of found) {
    const key = JSON.stringify([each.source, each.test, each.kind]);
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  const testOrder = new Map(evidence.tests.map((test, index) => [test.id, index]));
  const place = ({ test }: CollectionEntry): number => (test === null ? testOrder.size : (testOrder.get(test) ?? testOrder.size));
  return [...groups.values()]
    .flatMap((group) => merged(evidence, group))
    .sort(
      (a, b) =>
        place(a) - place(b) || ENTRY_KINDS.indexOf(a.kind) - ENTRY_KINDS.indexOf(b.kind) || (a.source < b.source ? -1 : 1),
    );
}

/** Statuses of numbers that somebody still has to read in the paper itself. */
export const TO_BE_READ: readonly Status[] = ['abstract', 'secondary', 'memory'];
