/** A result in a few lines: its place, the marks that count, what is uncertain about it. */
import type { Comparison, CutPointResult, TestResult } from '../../assessment.ts';
import type { BriefTest } from './brief-types.ts';
import { type Citations, withMark } from './citations.ts';
import { foldedNotes } from './notes.ts';
import { roundFor, unitWords } from './numbers.ts';
import { countingMarks, isNotTested, markOf, primaryOf, standingWords } from './standing.ts';
import { inCopdWords, labelOf, placeWords, resultWords, trialsWords } from './tests.ts';

/** The same rule from several sources is named once. */
const quoted = (cuts: readonly CutPointResult[], citations: Citations): string =>
  [...new Set(cuts.map((cut) => cut.rule))]
    .map((rule) => {
      const marks = cuts
        .filter((cut) => cut.rule === rule)
        .map((cut) => citations.mark({ source: cut.source, basis: cut.status }));
      return withMark(`"${rule}"`, [...new Set(marks)].join(''));
    })
    .join(', ');

/** Marks met, undecided or near; those plainly not met are counted. */
function markLines(test: TestResult, citations: Citations): string[] {
  const counting = countingMarks(test);
  if (counting.length === 0) return ['no mark linked with falls is held for this test and client'];
  const met = counting.filter((cut) => cut.met === true);
  const open = counting.filter((cut) => cut.met === null);
  const near = counting.filter((cut) => cut.met === false && cut.near === true);
  const rest = counting.length - met.length - open.length - near.length;
  const insideError = met.some((cut) => cut.near === true) ? ' (within measurement error)' : '';
  const parts = [
    ...(met.length === 0 ? [] : [`met${insideError}: ${quoted(met, citations)}`]),
    ...(open.length === 0 ? [] : [`undecided, the watch was stopped before: ${quoted(open, citations)}`]),
    ...(near.length === 0 ? [] : [`not met, but within measurement error: ${quoted(near, citations)}`]),
    ...(rest === 0 ? [] : [`${rest === counting.length ? 'none met of' : 'not met:'} ${rest}`]),
  ];
  const known = [...met, ...near].find((cut) => cut.in_copd !== null);
  return [parts.join('; '), ...(known === undefined ? [] : [inCopdWords(known, citations).replace(/^; /, '')])];
}

function errorWords({ measurement_error: error, unit, at_least: stopped }: TestResult, citations: Citations): string[] {
  if (error === null || stopped || error.low === null || error.high === null) return [];
  const decimals = unit === 'm/s' ? 2 : 1;
  const span = `true value probably ${roundFor(error.low, decimals)} to ${roundFor(error.high, decimals)} ${unitWords(unit, error.high)}`;
  return [withMark(span, citations.mark({ source: error.source, basis: error.status }))];
}

const DISAGREEMENT = /^other tables disagree: (.*) \(see the basis\)$/;

/** "other tables: 6 say usual". */
function disagreement(notes: readonly string[]): string[] {
  const said = notes.map((note) => DISAGREEMENT.exec(note)?.[1]).find((each) => each !== undefined);
  if (said === undefined) return [];
  const counts = said.split('; ').map((part) => {
    const [standing, ids] = part.split(' by ');
    const count = (ids ?? '').split(', ').length;
    return `${count} ${count === 1 ? 'says' : 'say'} ${standing}`;
  });
  return [`other tables disagree: ${counts.join(', ')}`];
}

const isForBrief = (note: string): boolean =>
  /\baid\b|better side|larger measurement error|close to the edge|cannot be|course|chair/i.test(note);

/** What holds of every row used is said once, with what does not fit in it. */
export function commonMisfits(tests: readonly TestResult[]): string[] {
  const rows = tests.flatMap((test) => primaryOf(test) ?? []);
  const [first, ...others] = rows;
  if (first === undefined || others.length === 0) return [];
  return first.mismatches.filter((misfit) => others.every((row) => row.mismatches.includes(misfit)));
}

/** The reader redoes the sum; how points of a table are read is said once, in the legend. */
function formulaOf({ working }: Comparison): string {
  return working.formula
    .replace('performance percentiles printed: ', 'points: ')
    .replace('; between them z is linear in the value', '');
}

/** "about the 10th percentile of both sexes 71-75: z = ... (pondal-2008-tug [3, abstract]; both sexes together)". */
function placeLine(test: TestResult, common: readonly string[], citations: Citations): string {
  const place = placeWords(test, citations);
  const primary = primaryOf(test);
  if (place === null || primary === null) return '';
  const misfits = primary.mismatches.filter((misfit) => !common.includes(misfit));
  const row = [withMark(primary.source, place.mark), formulaOf(primary), ...misfits];
  return `${place.text} (${row.join('; ')})`;
}

function fresh(notes: readonly string[], seen: Set<string>): string[] {
  const unseen = notes.filter((note) => !seen.has(note));
  for (const note of unseen) seen.add(note);
  return unseen;
}

/** `seen` holds the notes of the other side, which are not said again. */
export function briefTest(
  test: TestResult,
  { seen, common }: { readonly seen: Set<string>; readonly common: readonly string[] },
  citations: Citations,
): BriefTest {
  const notes = foldedNotes(test.notes);
  const place = isNotTested(test) ? '' : placeLine(test, common, citations);
  const trials = trialsWords(test);
  return {
    mark: markOf(test),
    label: labelOf(test),
    result: resultWords(test),
    standing: standingWords(test).replace(' (no percentile: see the basis)', ''),
    place: [
      ...(test.reason === null ? [] : [test.reason]),
      ...(trials === null ? [] : [`trials ${trials}`]),
      ...(place === '' ? [] : [place]),
      ...(isNotTested(test) ? [] : errorWords(test, citations)),
    ].join('; '),
    marks: isNotTested(test) ? [] : markLines(test, citations),
    notes: fresh([...notes.filter(isForBrief), ...disagreement(notes)], seen),
  };
}
