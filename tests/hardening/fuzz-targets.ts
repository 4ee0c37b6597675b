/** What is fuzzed: for each kind of file a way to make a broken one and the command lines that read it. */
import { parse } from 'yaml';
import { clinicFiles } from '../support/clinic.ts';
import { exampleFiles } from '../support/run.ts';
import { asYaml, mutateBytes, mutateText, mutateTree, NASTY, typed } from './mutate.ts';
import type { Chance } from './random.ts';

export interface Case {
  /** Absent: the first file is only read as a visit, which is twenty times as fast as a command. */
  readonly argv?: readonly string[];
  readonly files: Readonly<Record<string, string | Uint8Array>>;
}

export interface Target {
  readonly name: string;
  /** Of a hundred cases, how many are for this target. */
  readonly share: number;
  readonly make: (random: Chance) => Case;
}

const examples = exampleFiles();
const visits = Object.entries(examples).flatMap(([name, text]) =>
  /\.ya?ml$/.test(name) && !/map|mistakes/.test(name) ? [text] : [],
);
const visitTrees = visits.map((text): unknown => parse(text));

/** A broken form of one of the texts: by tree, by text or by bytes. */
function broken(texts: readonly string[], trees: readonly unknown[], random: Chance): string | Uint8Array {
  const kind = random.whole(10);
  if (kind < 5) return asYaml(mutateTree(random.pick(trees), random), random);
  if (kind < 8) return mutateText(random.pick(texts), random);
  return mutateBytes(Buffer.from(random.pick(texts)), random);
}

const VISIT_COMMANDS: readonly (readonly string[])[] = [
  ['check', 'visit.yaml'],
  ['score', 'visit.yaml'],
  ['score', 'visit.yaml', '--format', 'json'],
  ['score', 'visit.yaml', '--full'],
  ['score', 'visit.yaml', '--format', 'html'],
  ['score', 'visit.yaml', '--format', 'markdown'],
  ['score', 'visit.yaml', '--format', 'fhir'],
  ['risk', 'visit.yaml'],
  ['handout', 'visit.yaml', '--format', 'text'],
  ['handout', 'visit.yaml'],
  ['letter', 'visit.yaml'],
  ['letter', 'visit.yaml', '--format', 'html'],
  ['explain', 'visit.yaml'],
  ['change', 'visit.yaml', 'whole.yaml'],
  ['due', 'visit.yaml'],
];

const CELLS = [
  '',
  'n/a',
  '12.8',
  '12,8',
  '74',
  'F',
  'male',
  'yes',
  'no',
  '2026-05-11',
  '11/05/2026',
  'unable',
  '-',
  '1e5',
  '007',
  '"',
  '""',
  'x',
];
const HEADINGS = [
  'ref',
  'sex',
  'age',
  'born',
  'assessed',
  'timed_up_and_go',
  'tandem_stance',
  'grip_strength_right',
  'grip_strength_left',
  'falls_past_year',
  'TUG (s)',
  'Age',
  'remark',
  'constructor',
  '__proto__',
  'gait_speed_usual',
  'vitals.bp_lying',
  'SLS R',
  'home_oxygen',
];

function csv(random: Chance): string {
  const delimiter = random.pick([',', ',', ';', '\t', '|']);
  const cell = (): string => {
    const text = typed(random.maybe(0.9) ? random.pick(CELLS) : random.pick(NASTY));
    return random.maybe(0.1) ? `"${text.replaceAll('"', '""')}"` : text;
  };
  const columns = 1 + random.whole(8);
  const headings = Array.from({ length: columns }, () => random.pick(HEADINGS));
  const width = (): number => (random.maybe(0.95) ? headings.length : random.whole(12));
  const rows = Array.from({ length: random.whole(8) }, () => Array.from({ length: width() }, cell));
  return [random.maybe(0.7) ? ['age', ...headings.filter((each) => !/age/i.test(each))] : headings, ...rows]
    .map((row) => row.join(delimiter))
    .join(random.pick(['\n', '\r\n']));
}

const COHORTS = [
  'ref,sex,age,assessed,timed_up_and_go,tandem_stance,falls_past_year\nA-1,female,74,2026-05-11,12.8,8.5,1\nA-2,male,81,2026-05-12,"14.1",unable,n/a\n',
  'ID;Sex;Age;TUG (s)\n1;F;74;12,8\n2;M;"80";9,1\n',
];

function cohortCase(random: Chance): Case {
  const kind = random.whole(10);
  const text =
    kind < 5
      ? csv(random)
      : kind < 8
        ? mutateText(random.pick(COHORTS), random)
        : mutateBytes(Buffer.from(random.pick(COHORTS)), random);
  const more = random.pick<readonly string[]>([
    [],
    ['--format', 'ndjson'],
    ['--summary', 's.json'],
    ['--summary', 's.html', '--by', 'sex'],
    ['--rejects', 'r.csv', '-o', 'o.csv'],
    ['--suggest-columns'],
    ['--delimiter', ';'],
    ['--summary-part', 'p.json'],
  ]);
  return { argv: ['cohort', 'in.csv', ...more], files: { 'in.csv': text } };
}

const MAP =
  'format: 1\ndecimal: comma\ndates: dmy\nwords: {unable: [k, cannot]}\ncolumns:\n  ID: ref\n  Sex: {to: sex, values: {1: female, 2: male}}\n  Age: {to: age, whole: down}\n  "TUG (s)": {to: timed_up_and_go, ceiling: 60, multiply: 1}\n';
const SETTINGS =
  'pathway: world_falls_guidelines_2022\npopulation: "NO"\nletterhead: [Falls clinic, 1 Example Street]\nemergency_number: "112"\nlimits: {vitals.spo2_rest: {unusual: {below: 88}}}\nlanguage: en\n';
const PEOPLE =
  'client: {name: A. Client, born: 1951-02-03, address: [1 Example Street]}\nto: {name: Dr B, address: [2 Example Street]}\nfrom: {name: C, role: physiotherapist, registration: "123", telephone: "456"}\ncopies: [D]\n';
const TEMPLATE =
  '{{ salutation }}\n\n{{ summary }}\n{% for row in results %}{{ row.test }}: {{ row.result }} ({{ row.forAgeAndSex }})\n{% endfor %}{% if copies != "" %}Copies: {{ copies }}{% endif %}\n{{ closing | append: "x" }}\n';
const PART =
  '{"format":1,"kind":"cohort_part","digest":"x","job":{"headings":["ref"]},"part":{"accepted":1,"refused":0,"groups":[],"clients":[]},"check":"x"}';

const fixed = (text: string): { texts: readonly string[]; trees: readonly unknown[] } => ({
  texts: [text],
  trees: [parse(text)],
});
const [maps, settings, people, parts] = [fixed(MAP), fixed(SETTINGS), fixed(PEOPLE), fixed(PART)];
const whole = visits[0] ?? '';

const LIQUID = [
  '{{',
  '}}',
  '{%',
  '%}',
  '{{ constructor.constructor("return 1")() }}',
  '{% include "/etc/passwd" %}',
  '{% for i in (1..99999999) %}x{% endfor %}',
  '{{ results | json }}',
  '{{ "a" | raw }}',
  '{% assign x = 1 %}',
  '{% raw %}',
  '{{ x',
  '{% layout "a" %}',
  '{{ __proto__ }}',
  '{% liquid\necho 1 %}',
  '{{ 1 | divided_by: 0 }}',
];

function templateCase(random: Chance): Case {
  const at = random.whole(TEMPLATE.length);
  const text = random.maybe(0.5)
    ? TEMPLATE.slice(0, at) + random.pick(LIQUID) + TEMPLATE.slice(at)
    : mutateText(TEMPLATE, random);
  const name = random.pick(['t.txt', 't.md', 't.html']);
  return { argv: ['letter', 'whole.yaml', '--template', name], files: { [name]: text, 'whole.yaml': whole } };
}

const clinic = clinicFiles();
const clinicTrees = clinic.map(({ text }): unknown => parse(text));

function normsCase(random: Chance): Case {
  const chosen = random.whole(clinic.length);
  const files = Object.fromEntries(
    clinic.map(({ path, text }, index) => [
      `own/${path}`,
      index === chosen ? broken([text], [clinicTrees[index]], random) : text,
    ]),
  );
  const argv = random.maybe(0.8) ? ['norms', 'check', 'own'] : ['score', 'whole.yaml', '--norms', 'own'];
  return { argv, files: { ...files, 'whole.yaml': whole } };
}

export const TARGETS: readonly Target[] = [
  { name: 'reading', share: 80, make: (random) => ({ files: { 'visit.yaml': broken(visits, visitTrees, random) } }) },
  {
    name: 'visit',
    share: 4,
    make: (random) => ({
      argv: random.pick(VISIT_COMMANDS),
      files: { 'visit.yaml': broken(visits, visitTrees, random), 'whole.yaml': whole },
    }),
  },
  { name: 'cohort', share: 8, make: cohortCase },
  {
    name: 'map',
    share: 2,
    make: (random) => ({
      argv: ['cohort', 'in.csv', '--columns', 'map.yaml'],
      files: { 'in.csv': COHORTS[1] ?? '', 'map.yaml': broken(maps.texts, maps.trees, random) },
    }),
  },
  {
    name: 'settings',
    share: 2,
    make: (random) => ({ argv: ['settings'], files: { '.footing.yaml': broken(settings.texts, settings.trees, random) } }),
  },
  { name: 'template', share: 1, make: templateCase },
  {
    name: 'people',
    share: 1,
    make: (random) => ({
      argv: ['letter', 'whole.yaml', '--people', 'people.yaml'],
      files: { 'people.yaml': broken(people.texts, people.trees, random), 'whole.yaml': whole },
    }),
  },
  {
    name: 'part',
    share: 1,
    make: (random) => ({
      argv: ['cohort', 'p.json', '--merge', '--summary', 's.json'],
      files: { 'p.json': broken(parts.texts, parts.trees, random) },
    }),
  },
  { name: 'norms', share: 1, make: normsCase },
];

/** The same number always gives the same target. */
export function targetOf(number: number): Target {
  let left = (number * 37) % 100;
  for (const target of TARGETS) {
    if (left < target.share) return target;
    left -= target.share;
  }
  throw new Error('the shares do not come to a hundred');
}
