/** Mangled cohorts from a seed: a table as a spreadsheet might export it, damaged as files and people damage them. */
import { mutateBytes, mutateText } from '../hardening/mutate.ts';
import { type Chance, chance } from '../hardening/random.ts';

export interface CohortCase {
  readonly bytes: Buffer;
  readonly argv: readonly string[];
  /** Text of the map file, where there is one. */
  readonly map: string | null;
  /** Stated on the command line. */
  readonly delimiter: string | null;
  readonly encoding: string | null;
  /** The header of the command line: the input has none. */
  readonly header: string | null;
  readonly format: 'csv' | 'ndjson';
  /** Bytes in which the input arrives. */
  readonly piece: number;
}

type Cells = readonly [heading: string, good: readonly string[], bad: readonly string[]];

const WORDS = ['', 'n/a', 'NA', '-', 'not done'];
const TEST_WORDS = ['unable', 'Refused', 'declined', 'failed'];
const BAD_NUMBERS = ['12,8', '12.8 s', '<5', '30+', '1e3', '-3', '999999', 'abc', '1:30', 'NaN', '0x1f', '١٢', '１２', '1 000'];
const ANSWERS: readonly [readonly string[], readonly string[]] = [
  ['yes', 'no', 'unknown', 'Y', 'n', 'TRUE', '', 'n/a'],
  ['maybe', '2', 'ja', '1'],
];
const number = (heading: string, ...good: readonly string[]): Cells => [heading, [...good, ...WORDS], BAD_NUMBERS];
const test = (heading: string, ...good: readonly string[]): Cells => [heading, [...good, ...WORDS, ...TEST_WORDS], BAD_NUMBERS];

const REMARKS = [
  '',
  'well',
  'é',
  '👵🏽 steady',
  'a, b; c|d\te',
  'she said "no"',
  '"',
  'two\nlines',
  'two\r\nlines',
  ' \u00a0 ',
  '=1+1',
  '=HYPERLINK("x","y")',
  '@SUM(A1)',
  '+cmd|x',
  '-1+1',
  '+47 22 33 44',
  '-1.5',
  '\t=1',
  "'=1",
  '\u0000',
  '\u0001',
  '\ufeff',
  '\u2028',
  '\ufffd',
  'null',
  '__proto__',
];

const AGE: Cells = ['age', ['74', '81', '66', '59', '90', '64'], ['', '74.5', '200', '12', '7 4', '-74', 'old', '74,5']];
const COLUMNS: readonly Cells[] = [
  ['ref', ['a', 'M-207', 'é-7', '😀', '', '007'], ['\u0007', 'x'.repeat(300), 'a\nb']],
  ['sex', ['female', 'M', 'f', 'Male', '', 'unknown'], ['x', '1', 'weiblich']],
  ['born', ['1951-03-17', '1940-12-31'], ['17.03.1951', '1951-13-01', '2030-01-01', '']],
  ['assessed', ['2026-05-11', '2026-01-05', '2024-02-29', '2026-05-11 09:30'], ['11/05/2026', '2027-01-01', '2026-02-30']],
  ['setting', ['community', 'hospital', 'Residential care', ''], ['moon']],
  number('falls_past_year', '0', '1', '2', '3', 'several'),
  ['fall_injury', ...ANSWERS],
  ['feels_unsteady', ...ANSWERS],
  ['loss_of_consciousness', ...ANSWERS],
  ['lung_condition', ['none', 'COPD', 'asthma', '', 'unknown'], ['flu']],
  ['oral_steroid', ...ANSWERS],
  number('oral_steroid_daily_mg', '5', '7.5'),
  number('clinical_frailty_scale', '2', '4', '6'),
  number('spo2_rest', '95', '88'),
  ['bp_lying', ['138/78', '', '120/80'], ['80/120', '150', '138-78']],
  ['chest_pain', ...ANSWERS],
  test('TUG (s)', '9.4', '12', '15.1', '31'),
  test('timed_up_and_go_cognitive', '11', '16.5'),
  test('gait_speed_usual', '0.79', '0.8', '1.27'),
  test('five_times_sit_to_stand', '10.2', '15', '16.9'),
  test('side_by_side_stance', '10', '7'),
  test('semi_tandem_stance', '10', '4.5'),
  test('tandem_stance_trial1', '10', '2.9'),
  test('tandem_stance_trial2', '9.5', '10'),
  test('SLS right', '3', '30', '45'),
  test('single_leg_stance_eyes_open_left', '4', '10'),
  test('grip_strength_right', '16', '31'),
  test('berg_balance', '44', '56'),
  ['remark', REMARKS, ['"open']],
  ['Telephone', ['+47 22 33 44', '', '(0)11'], ['"']],
  ['constructor', ['x', ''], []],
  ['__proto__', ['x', ''], []],
  ['timed_up_and_goo', ['1', ''], []],
];

const CLINIC: readonly Cells[] = [
  ['Nr', ['1', '2', '003'], ['']],
  ['Geschlecht', ['w', 'm', 'W', ''], ['x', 'female']],
  ['Alter', ['74', '81,9', '66,0'], ['74.5', '', 'alt']],
  ['Datum', ['11.05.2026', '1.2.2026', '2026-05-11', ''], ['05/31/2026', '31.02.2026']],
  ['Stürze', ['0', '1', 'viele', ''], ['2,5']],
  test('Gehen', '9,4', '12', '60', '15,25', 'geht nicht'),
  test('4 m', '3,2', '5', '8,75'),
  test('Stuhl', '11,2', '15'),
  ['Bemerkung', REMARKS, ['"offen']],
];
const CLINIC_MAP = `format: 1
decimal: comma
dates: dmy
words: {unable: [unable, geht nicht]}
columns:
  Nr: ref
  Geschlecht: {to: sex, values: {w: female, m: male}}
  Alter: {to: age, whole: down}
  Datum: assessed
  Stürze: {to: falls_past_year, values: {viele: several}}
  Gehen: {to: timed_up_and_go, ceiling: 60}
  4 m: {to: gait_speed_usual, as: time, distance: 4, start: standing}
  Stuhl: {to: five_times_sit_to_stand, chair_cm: 45}
  Bemerkung: pass
`;

const LINE_ENDS = ['\n', '\n', '\r\n', '\r\n', '\r'];
const HUGE = [20_000, 70_000, 300_000];
/** Longer than a record in quotes may be. */
const TOO_LONG = 1_500_000;

function cellText([, good, bad]: Cells, { pick, maybe, whole }: Chance): string {
  if (maybe(0.0008)) return 'x'.repeat(pick(HUGE));
  if (maybe(0.00005)) return `${'y'.repeat(TOO_LONG)}\n${whole(10)}`;
  return bad.length > 0 && maybe(0.04) ? pick(bad) : pick(good);
}

function written(text: string, delimiter: string, { maybe }: Chance): string {
  const needed = /["\r\n]/.test(text) || text.includes(delimiter);
  return maybe(needed ? 0.93 : 0.05) ? `"${text.replaceAll('"', '""')}"` : text;
}

function rowText(columns: readonly Cells[], delimiter: string, random: Chance): string {
  const cells = columns.map((column) => written(cellText(column, random), delimiter, random));
  if (random.maybe(0.03)) cells.splice(random.whole(cells.length), 1);
  if (random.maybe(0.03)) cells.splice(random.whole(cells.length), 0, random.pick(['', '1', '"']));
  if (random.maybe(0.02)) return random.pick(['', '  ', '""', delimiter.repeat(columns.length - 1), cells[0] ?? '']);
  return cells.join(delimiter);
}

function chosenColumns(all: readonly Cells[], random: Chance): Cells[] {
  const share = 0.1 + random.next() * 0.7;
  const chosen = all.filter(() => random.maybe(share));
  if (all === COLUMNS && !(chosen.some(([heading]) => heading === 'born') && random.maybe(0.8)))
    chosen.splice(random.whole(chosen.length + 1), 0, AGE);
  return chosen.filter(([heading], index) => chosen.findIndex((other) => other[0] === heading) === index);
}

/** A heading twice, none at all, one with blanks around it or in quotes. */
function headerText(columns: readonly Cells[], delimiter: string, random: Chance): string {
  const headings = columns.map(([heading]) => written(heading, delimiter, random));
  if (random.maybe(0.02)) headings.push(random.pick([headings[0] ?? '', '']));
  if (random.maybe(0.02)) headings[0] = ` ${headings[0]} `;
  return headings.join(delimiter);
}

const FRAGMENTS = ['"', '"', ',', ';', '\n', '\r\n', '\r', '\0', '""', '\ufeff', '\u2028', '\ud800', '999999999999', '\t'];

function damaged(text: string, random: Chance): string {
  let result = text;
  for (let left = random.pick([0, 0, 1, 1, 2, 4]); left > 0; left -= 1) {
    const at = random.whole(result.length + 1);
    result = result.slice(0, at) + random.pick(FRAGMENTS) + result.slice(at + random.pick([0, 0, 1, 1, 5, 40]));
  }
  if (random.maybe(0.1)) result = mutateText(result, random);
  return random.maybe(0.05) ? result.slice(0, random.whole(result.length + 1)) : result;
}

const ENCODINGS: readonly (readonly [string, number])[] = [
  ['utf-8', 60],
  ['utf-8 mark', 12],
  ['utf-16le mark', 10],
  ['utf-16be mark', 6],
  ['utf-16le', 6],
  ['windows-1252', 6],
];

function encodingFor(random: Chance): string {
  let left = random.whole(100);
  for (const [name, share] of ENCODINGS) {
    if (left < share) return name;
    left -= share;
  }
  return 'utf-8';
}

function encode(text: string, encoding: string): Buffer {
  const [name = '', mark] = encoding.split(' ');
  const marked = mark === undefined ? text : `\ufeff${text}`;
  if (name === 'utf-16le') return Buffer.from(marked, 'utf16le');
  if (name === 'utf-16be') return Buffer.from(marked, 'utf16le').swap16();
  return Buffer.from(marked, name === 'windows-1252' ? 'latin1' : 'utf8');
}

/** The table with its damage; a damaged header stops everything, so most of the damage is done to rows. */
function bytesOf(top: string, rows: string, encoding: string, random: Chance): Buffer {
  if (encoding === 'utf-8' && random.maybe(0.05)) return encode(damaged(top + rows, random), encoding);
  const tail = encode(damaged(rows, random), encoding.replace(' mark', ''));
  return Buffer.concat([encode(top, encoding), random.maybe(0.15) ? mutateBytes(tail, random) : tail]);
}

function rowsText(columns: readonly Cells[], delimiter: string, random: Chance): string {
  const { pick, maybe, whole } = random;
  const ends = maybe(0.1) ? LINE_ENDS : [pick(['\n', '\n', '\r\n'])];
  const lines = Array.from({ length: whole(7) }, () => rowText(columns, delimiter, random) + pick(ends));
  return lines.join('').replace(/\r?\n$/, (end) => (maybe(0.8) ? end : ''));
}

function topText(columns: readonly Cells[], delimiter: string, random: Chance): string {
  const blank = random.maybe(0.03) ? random.pick(['\n', '\r\n', ' \n\n']) : '';
  return `${blank}${headerText(columns, delimiter, random)}${random.pick(['\n', '\n', '\r\n'])}`;
}

/** The same number always makes the same case. */
export function cohortCase(seed: number): CohortCase {
  const random = chance(seed);
  const { pick, maybe } = random;
  const withMap = maybe(0.2);
  const columns = withMap ? CLINIC : chosenColumns(COLUMNS, random);
  const delimiter = pick([',', ',', ',', ';', '\t', '|']);
  const encoding = encodingFor(random);
  const header = maybe(0.08) ? columns.map(([heading]) => heading).join(delimiter) : null;
  const format = header !== null || maybe(0.3) ? 'ndjson' : 'csv';
  const stated = header !== null || maybe(0.3);
  const more = [
    ...(format === 'ndjson' || maybe(0.6) ? ['--rejects', 'refused'] : []),
    ...(maybe(0.05) ? ['--summary', pick(['s.json', 's.html'])] : []),
    ...(withMap ? ['--columns', 'map'] : []),
    ...(stated ? ['--delimiter', delimiter] : []),
    ...(encoding === 'windows-1252' ? ['--encoding', encoding] : []),
  ];
  const input = header === null ? [maybe(0.8) ? 'in.csv' : '-'] : ['-', '--header', header];
  const top = header === null ? topText(columns, delimiter, random) : '';
  return {
    bytes: bytesOf(top, rowsText(columns, delimiter, random), encoding, random),
    argv: ['cohort', ...input, '--format', format, '-o', 'out', ...more],
    map: withMap ? CLINIC_MAP : null,
    delimiter: stated ? delimiter : null,
    encoding: encoding === 'windows-1252' ? encoding : null,
    header,
    format,
    piece: pick([1, 3, 17, 400, 65_536]),
  };
}
