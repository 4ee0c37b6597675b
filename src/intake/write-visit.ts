/** A visit as the text of a file, with a comment behind each line that says what can stand there. */
import { Document, visit } from 'yaml';
import type { TestDefinition } from '../evidence/schema/catalogue.ts';
import { CLIENT_KEYS, FIELD_GROUPS, type Key, type Keys, type Leaf, ROOT_KEYS } from '../session-keys.ts';

/** For editors with YAML support: keys and their meaning while typing. `footing schema -o visit.schema.json` makes the file. */
const EDITOR_LINE = '# yaml-language-server: $schema=./visit.schema.json';

/** A value on one line, quoted only where YAML needs it. */
export function inFlow(value: unknown): string {
  const document = new Document(value);
  visit(document, {
    Collection: (_key, node) => {
      node.flow = true;
    },
  });
  return document.toString({ lineWidth: 0, flowCollectionPadding: false }).trim();
}

/** Column at which the comments begin, where the line is shorter. */
const COMMENT_COLUMN = 44;

const line = (text: string, comment: string): string => (comment === '' ? text : `${text.padEnd(COMMENT_COLUMN)} # ${comment}`);

function choices(leaf: Leaf): string {
  switch (leaf.kind) {
    case 'answer':
    case 'event':
      return 'yes | no | unknown';
    case 'choice':
      return leaf.options.join(' | ');
    case 'steroid':
      return 'no | unknown | {daily_mg: 7.5, months: 14}';
    case 'pressure':
      return '138/78';
    default:
      return '';
  }
}

const comment = ({ about, leaf }: Key): string => (choices(leaf) === '' ? about : `${about} (${choices(leaf)})`);

type Values = Readonly<Record<string, unknown>>;
const isValues = (value: unknown): value is Values => typeof value === 'object' && value !== null && !Array.isArray(value);
const inside = (tree: Values, key: string): Values => (isValues(tree[key]) ? tree[key] : {});

/** The lines of a group; keys without a value stand empty where `empty` names them, which counts as not recorded. */
function group(name: string, keys: Keys, values: Values, empty: readonly string[]): string[] {
  const shown = Object.entries(keys).filter(([key]) => values[key] !== undefined || empty.includes(key));
  if (shown.length === 0) return [];
  return [
    `${name}:`,
    ...shown.map(([key, about]) =>
      line(`  ${key}:${values[key] === undefined ? '' : ` ${inFlow(values[key])}`}`, comment(about)),
    ),
  ];
}

function testLine(test: TestDefinition, value: unknown): string {
  const unit = test.unit_text === '' ? 'points' : test.unit_text;
  return line(`  ${test.id}:${value === undefined ? '' : ` ${inFlow(value)}`}`, `${test.name}, ${unit}`);
}

/** How a result that is no plain number is written; put above the tests of an empty form. */
const FORMS = `  # A number, a list of trials [12.8, 13.1], or {unable: the reason} | {declined: the reason} | {unsafe: the reason, why: balance}
  # Sided tests: {right: [4.2, 6.0], left: 3.4, ceiling: 30}. Walks: {time: 4.9, distance: 4, start: standing}`;

export interface VisitForm {
  /** As a reader of files would see it; what is missing is not recorded. */
  readonly tree: Values;
  /** Empty lines to fill in: keys of the client, `group.key` for the rest. */
  readonly emptyKeys: readonly string[];
  readonly emptyTests: readonly string[];
  readonly tests: readonly TestDefinition[];
}

/** The whole file, ending with a line feed. */
export function visitText({ tree, emptyKeys, emptyTests, tests }: VisitForm): string {
  const emptyOf = (prefix: string): string[] =>
    emptyKeys.filter((key) => key.startsWith(`${prefix}.`)).map((key) => key.slice(prefix.length + 1));
  const { format: _format, ...root } = ROOT_KEYS;
  const rootLines = Object.entries(root)
    .filter(([key]) => tree[key] !== undefined || emptyKeys.includes(key))
    .map(([key, about]) => line(`${key}:${tree[key] === undefined ? '' : ` ${inFlow(tree[key])}`}`, comment(about)));
  const results = inside(tree, 'tests');
  const shownTests = tests.filter(({ id }) => results[id] !== undefined || emptyTests.includes(id));
  return `${[
    EDITOR_LINE,
    line('format: 1', 'one file is one visit; a line without a value counts as not recorded, never as no'),
    ...group('client', CLIENT_KEYS, inside(tree, 'client'), emptyOf('client')),
    ...rootLines,
    ...Object.entries(FIELD_GROUPS).flatMap(([name, keys]) => group(name, keys, inside(tree, name), emptyOf(name))),
    ...(shownTests.length === 0 ? [] : ['tests:', ...(emptyTests.length === 0 ? [] : [FORMS])]),
    ...shownTests.map((test) => testLine(test, results[test.id])),
  ].join('\n')}\n`;
}
