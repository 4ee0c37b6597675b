/**
 * Why the primary table won, what else would have fitted, and why the other tables of the test hold nobody like this client.
 * The order of fit itself stands in `order-of-fit.ts`; here it is only put into words.
 */
import type { Comparison, Selection } from '../assessment.ts';
import type { Evidence } from '../evidence/data.ts';
import type { Protocol, Row, TableFile, TablePart } from '../evidence/schema/table.ts';
import { BY_ID, type Criterion, ORDER_OF_FIT } from './order-of-fit.ts';
import {
  type Asked,
  type Candidate,
  concernsClient,
  holdsAge,
  holdsHeight,
  holdsSexAndSetting,
  holdsSide,
  type Subject,
} from './select.ts';

/** What two tables must agree in to be comparable, where both say it. */
const COMPARABLE: readonly (readonly [keyof Protocol, string])[] = [
  ['ceiling', 'ceiling (s)'],
  ['trials_rule', 'trial that counts'],
  ['pace', 'pace'],
  ['distance_m', 'distance (m)'],
  ['start', 'start'],
  ['arms', 'arms'],
  ['chair_cm', 'chair height (cm)'],
  ['watch_stop', 'stop of the watch'],
];

/** "ceiling (s) 30, there 45": where the protocols of two tables are known to differ. */
function protocolDifferences(a: TableFile, b: TableFile): string[] {
  return COMPARABLE.flatMap(([key, words]) => {
    const [here, there] = [a.protocol[key], b.protocol[key]];
    const known = here !== undefined && there !== undefined && here !== 'unknown' && there !== 'unknown';
    return known && here !== there ? [`${words} ${here}, there ${there}`] : [];
  });
}

/** The criterion that puts `better` before `other`. */
const decisive = (better: Candidate, other: Candidate, subject: Subject): Criterion =>
  ORDER_OF_FIT.find(({ compare }) => compare(better, other, subject) !== 0) ?? BY_ID;

const nameOf = ({ table, part }: Candidate): string => (table.parts.length === 1 ? table.source : `${table.source} (${part.id})`);

/** Candidates that stood before the primary one and gave no standing. */
function passedOver(candidates: readonly Candidate[], comparisons: readonly Comparison[], chosen: number): string[] {
  return candidates
    .slice(0, chosen)
    .map(
      (candidate, index) =>
        `${nameOf(candidate)} fits better but gives no standing: ${comparisons[index]?.no_standing_because ?? 'it has no spread'}`,
    );
}

function chosenBecause(
  candidates: readonly Candidate[],
  comparisons: readonly Comparison[],
  chosen: number,
  context: { readonly subject: Subject; readonly why: string | undefined },
): string {
  const winner = candidates[chosen];
  const next = candidates[chosen + 1];
  if (winner === undefined) return 'no default table fits this client';
  const before = passedOver(candidates, comparisons, chosen);
  const reason =
    candidates.length === 1
      ? 'it is the only table that fits this client'
      : next === undefined
        ? 'it is the only one that gives a standing'
        : `before ${nameOf(next)} because ${decisive(winner, next, context.subject).words}`;
  return [reason, ...before, ...(context.why === undefined ? [] : [context.why])].join('; ');
}

function alsoFits(candidate: Candidate, winner: Candidate | undefined, subject: Subject, before: boolean): string {
  if (winner === undefined)
    return Number.isFinite(candidate.defaultRank)
      ? 'a default table, but it can decide nothing here'
      : 'not a default table of this test';
  const order = before ? 'fits better but gives no standing' : decisive(winner, candidate, subject).behind;
  const differences = protocolDifferences(candidate.table, winner.table);
  return differences.length === 0 ? order : `${order}; not comparable with ${winner.table.source}: ${differences.join(', ')}`;
}

const span = (rows: readonly Row[]): string => {
  const low = Math.min(...rows.map((row) => row.age_min ?? 0));
  if (rows.some((row) => row.age_max === null)) return `${low} and over`;
  const high = Math.max(...rows.map((row) => row.age_max ?? 0));
  return low === high ? `${low}` : `${low} to ${high}`;
};

const inRange = (rows: readonly Row[], age: number): boolean =>
  rows.some((row) => (row.age_min ?? 0) <= age) && rows.some((row) => (row.age_max ?? Number.POSITIVE_INFINITY) >= age);

/** The first thing that no row of this part has; null where a row holds the client. */
function partDoesNotFit(part: TablePart, subject: Subject, asked: Asked): string | null {
  const { client } = subject;
  const steps: readonly (readonly [(row: Row) => boolean, (rows: readonly Row[]) => string])[] = [
    [
      (row) => holdsSexAndSetting({ ...row, setting: undefined }, client),
      () => `its rows are of ${client.sex === 'female' ? 'men' : 'women'} only`,
    ],
    [
      (row) => holdsAge(row, client.age),
      (rows) =>
        inRange(rows, client.age)
          ? [`it has no row at age ${client.age}`, ...part.gaps].join(': ')
          : `it covers the ages ${span(rows)}`,
    ],
    [(row) => holdsSexAndSetting(row, client), () => 'its rows are of people who live in another setting'],
    [
      (row) => row.group === undefined && row.stance === undefined,
      () => 'its rows are of groups or stances that are not recorded of the client',
    ],
    [
      (row) => holdsHeight(row, client.heightCm),
      () => (client.heightCm === undefined ? "it needs the client's height" : 'it has no row at this height'),
    ],
    [
      (row) => holdsSide(row, asked.side, asked.strongerSide),
      () => 'its rows are of the dominant or the stronger side, or of the other side',
    ],
  ];
  let rows: readonly Row[] = part.rows;
  for (const [holds, words] of steps) {
    const left = rows.filter(holds);
    if (left.length === 0) return words(rows);
    rows = left;
  }
  return null;
}

function tableDoesNotFit(table: TableFile, subject: Subject, asked: Asked): Selection['do_not_fit'] {
  const { source, population } = table;
  if (!concernsClient(table, subject))
    return [{ source, part: null, because: `a sample of other people: ${population.description}` }];
  return table.parts.flatMap((part) => {
    const because = partDoesNotFit(part, subject, asked);
    return because === null ? [] : [{ source, part: part.id, because }];
  });
}

/** Tables of the test without a row for this client, each with the first reason found. */
function doNotFit(evidence: Evidence, subject: Subject, asked: Asked): Selection['do_not_fit'] {
  return (evidence.tablesByTest.get(asked.test) ?? []).flatMap((table) => tableDoesNotFit(table, subject, asked));
}

/** `chosen` is the place of the primary comparison, -1 where none is. The lists are in the same order of fit. */
export function selectionOf(
  evidence: Evidence,
  subject: Subject,
  asked: Asked,
  fitting: { readonly candidates: readonly Candidate[]; readonly comparisons: readonly Comparison[]; readonly chosen: number },
): Selection {
  const { candidates, comparisons, chosen } = fitting;
  const winner = candidates[chosen];
  const entry = winner === undefined ? undefined : evidence.defaults.tests[asked.test]?.tables[winner.defaultRank];
  return {
    chosen: winner === undefined ? null : winner.table.source,
    because: chosenBecause(candidates, comparisons, chosen, { subject, why: entry?.why }),
    also_fit: candidates.flatMap((candidate, index) =>
      index === chosen
        ? []
        : [
            {
              source: candidate.table.source,
              part: candidate.part.id,
              because: alsoFits(candidate, winner, subject, index < chosen),
            },
          ],
    ),
    do_not_fit: doNotFit(evidence, subject, asked),
  };
}

/** What came of the wish for tables from one country; nothing where none was asked for. */
export function countryNotes(
  subject: Subject,
  fitting: { readonly candidates: readonly Candidate[]; readonly chosen: number },
): string[] {
  const wanted = subject.preferredCountry;
  if (wanted === undefined || fitting.candidates.length === 0) return [];
  const ofCountry = ({ table }: Candidate): boolean => table.population.country.includes(wanted);
  const winner = fitting.candidates[fitting.chosen];
  if (winner !== undefined && ofCountry(winner)) return [];
  const others = fitting.candidates.filter(ofCountry).map(({ table }) => table.source);
  if (others.length === 0) return [`no table from ${wanted} has a row for this client`];
  return [
    `from ${wanted} there is ${[...new Set(others)].join(', ')}, shown beside; not a default table with a standing here (your own defaults.yaml can make it one)`,
  ];
}

const noRow = (tables: number): string =>
  tables === 1
    ? 'the one table held has no row'
    : `${tables === 2 ? 'neither of the two' : `none of the ${tables}`} tables held has a row`;

/** Why nothing could be compared, in words; never an empty reason. */
export function whyNoComparison(test: string, evidence: Evidence, { client }: Subject, misfits: Selection['do_not_fit']): string {
  const declared = evidence.defaults.tests[test]?.no_table_because;
  const tables = evidence.tablesByTest.get(test) ?? [];
  if (tables.length === 0) return `no published norm for this${declared === undefined ? '' : `: ${declared}`}`;
  const who = client.sex === 'not recorded' ? `age ${client.age}, sex not recorded` : `a ${client.sex} client of ${client.age}`;
  const reasons = [...new Set(misfits.map((each) => `${each.source}: ${each.because}`))];
  return `no published norm for this: ${noRow(tables.length)} for ${who} (${reasons.join('; ')})`;
}
