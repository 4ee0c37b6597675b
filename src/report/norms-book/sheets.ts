/** Everything the collection holds from one paper, in words and grids: `norms show` and the book lay it out, nothing else chooses. */
import type { Evidence } from '../../evidence/data.ts';
import type { Population, Protocol, TableFile } from '../../evidence/schema/table.ts';
import { type Grid, gridOf } from './grid.ts';
import { type ItemSheet, itemSheets, kept, type Line, readAs } from './items.ts';

export interface PartSheet {
  readonly id: string;
  readonly location: string;
  readonly notes: readonly string[];
  readonly grid: Grid;
}

export interface TableSheet {
  readonly source: string;
  readonly test: string;
  readonly testName: string;
  readonly lines: readonly Line[];
  readonly parts: readonly PartSheet[];
}

export interface SourceSheet {
  readonly source: string;
  readonly citation: string;
  readonly doi: string | null;
  readonly note: string | null;
  readonly tables: readonly TableSheet[];
  readonly items: readonly ItemSheet[];
}

const plain = (id: string): string => id.replaceAll('_', ' ');
function protocolWords(protocol: Protocol, unit: string): string {
  const rule = { best: 'best trial', mean: 'mean of the trials', first: 'first trial', unknown: 'trial that counts: not said' }[
    protocol.trials_rule
  ];
  const parts = [
    protocol.trials === undefined ? rule : `${rule}, ${protocol.trials} ${protocol.trials === 1 ? 'trial' : 'trials'}`,
    protocol.ceiling === undefined ? null : `stopped at ${protocol.ceiling} ${unit}`,
    protocol.pace === undefined ? null : `${protocol.pace} pace`,
    protocol.distance_m === undefined ? null : `${protocol.distance_m} m`,
    protocol.start === undefined ? null : `${protocol.start} start`,
    protocol.watch_stop === undefined
      ? null
      : `the watch stops ${protocol.watch_stop === 'standing' ? 'on the last stand' : 'when seated again'}`,
    protocol.arms === undefined ? null : `arms ${protocol.arms}`,
    protocol.chair_cm === undefined ? null : `seat ${protocol.chair_cm} cm`,
    protocol.aid_allowed === undefined ? null : `walking aid ${protocol.aid_allowed ? 'allowed' : 'not allowed'}`,
    protocol.note ?? null,
  ];
  return parts.filter((part) => part !== null).join('; ');
}

function populationWords({ description, kind, country, setting, condition }: Population): string {
  const kinds = {
    general: 'population-based',
    healthy: 'healthy volunteers',
    clinical: 'people with a condition: for orientation only',
    at_risk: 'people at risk: for orientation only',
    athletic: 'trained people: for orientation only',
  };
  const details = [
    kinds[kind],
    setting === 'community' ? null : plain(setting),
    condition ?? null,
    country.length === 0 ? null : country.join(', '),
  ];
  return `${description} (${details.filter((each) => each !== null).join('; ')})`;
}

function tableSheet(table: TableFile, evidence: Evidence): TableSheet {
  const test = evidence.testById.get(table.test);
  const rank = evidence.defaults.tests[table.test]?.tables.findIndex((entry) => entry.source === table.source) ?? -1;
  return {
    source: table.source,
    test: table.test,
    testName: test?.name ?? table.test,
    lines: kept([
      ['Unit', table.unit],
      ['Population', populationWords(table.population)],
      ['People', table.n],
      ['Protocol', protocolWords(table.protocol, test?.unit_text ?? table.unit)],
      ['Location', table.location],
      ['Read', readAs(table.status)],
      ['Used', rank === -1 ? 'shown beside the default tables' : `default table ${rank + 1} of this test`],
      ...table.notes.map((note): Line => ['Note', note]),
      ['Remarks', table.remarks],
    ]),
    parts: table.parts.map((part) => ({
      id: plain(part.id),
      location: part.location,
      notes: [
        ...(part.no_standing_because === undefined ? [] : [`Orientation only: ${part.no_standing_because}`]),
        ...part.gaps.map((gap) => `Gap: ${gap}`),
      ],
      grid: gridOf(part),
    })),
  };
}

export const tableSheets = (evidence: Evidence): TableSheet[] => evidence.tables.map((table) => tableSheet(table, evidence));

/** All of one source, or of it and one test; null where the evidence has no such source. */
export function sourceSheet(evidence: Evidence, id: string, test?: string): SourceSheet | null {
  const source = evidence.sources[id];
  if (source === undefined) return null;
  const wanted = (each: { readonly source: string; readonly test: string | null }): boolean =>
    each.source === id && (test === undefined || each.test === test);
  return {
    source: id,
    citation: source.citation,
    doi: source.doi,
    note: source.note ?? null,
    tables: tableSheets(evidence).filter(wanted),
    items: itemSheets(evidence).filter(wanted),
  };
}
