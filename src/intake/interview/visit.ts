/** Answers -> the tree of a visit file, and what the reader of files would say of one answer. */
import { buildSession, type Catalogue } from '../build.ts';
import { type Finding, isRefusal } from '../problems.ts';
import { chooseTests } from './choose-tests.ts';
import { type Answers, type Question, questionsFor } from './questions.ts';
import { leafTyped, numberTyped, resultTyped, type Typed } from './typed.ts';

export interface InterviewOptions {
  readonly catalogue: Catalogue;
  /** ISO date. */
  readonly today: string;
  readonly all: boolean;
}

export type Tree = Record<string, unknown>;

/** What stands in the file for a text; undefined for nothing. */
export function valueTyped({ form, usual }: Question, typed: string, { catalogue, today }: InterviewOptions): Typed | undefined {
  const text = typed.trim() === '' ? (usual ?? '') : typed.trim();
  if (text === '') return undefined;
  switch (form.kind) {
    case 'leaf':
      return leafTyped(form.leaf, text, today);
    case 'age':
      return /^\d{4}-/.test(text) ? { value: text } : numberTyped(text);
    case 'result':
      return resultTyped(text);
    case 'tests': {
      const chosen = chooseTests(text, catalogue.tests);
      return 'problem' in chosen ? chosen : { value: chosen.tests.map(({ id }) => id) };
    }
  }
}

function put(tree: Tree, path: readonly (string | number)[], value: unknown): void {
  let at = tree;
  for (const key of path.slice(0, -1)) {
    const inner = at[key];
    // A result without sides becomes a form when something is said beside it.
    const next: Tree = typeof inner === 'object' && inner !== null && !Array.isArray(inner) ? (inner as Tree) : {};
    at[key] = next;
    at = next;
  }
  at[path.at(-1) ?? ''] = value;
}

/** `{time: 4.9, distance: 4, start: standing}`; a plain result where no course was given. */
function withCourse(result: unknown, extras: Tree): unknown {
  if (typeof result === 'object' && result !== null && !Array.isArray(result)) return result;
  return { time: result, ...extras };
}

function putTest(tree: Tree, id: string, values: Readonly<Record<string, unknown>>): void {
  const { result, right, left, ceiling, distance, start } = values;
  const extras = { ...(distance === undefined ? {} : { distance }), ...(start === undefined ? {} : { start }) };
  if (right !== undefined || left !== undefined)
    put(tree, ['tests', id], {
      ...(right === undefined ? {} : { right }),
      ...(left === undefined ? {} : { left }),
      ...(ceiling === undefined ? {} : { ceiling }),
    });
  else if (result !== undefined && distance !== undefined) put(tree, ['tests', id], withCourse(result, extras));
  else if (result !== undefined && ceiling !== undefined && typeof result !== 'object')
    put(tree, ['tests', id], { value: result, ceiling });
  else if (Array.isArray(result) && ceiling !== undefined) put(tree, ['tests', id], { trials: result, ceiling });
  else if (result !== undefined) put(tree, ['tests', id], result);
}

interface Given {
  readonly question: Question;
  readonly value: unknown;
}

/** What can be read of the answers, in the order of the questions. */
function givenAnswers(answers: Answers, options: InterviewOptions): Given[] {
  return questionsFor(answers, options.catalogue, options.all)
    .filter(({ id, form, usual }) => form.kind !== 'tests' && (answers[id] !== undefined || usual !== undefined))
    .flatMap((question) => {
      const typed = valueTyped(question, answers[question.id] ?? '', options);
      return typed === undefined || 'problem' in typed ? [] : [{ question, value: typed.value }];
    });
}

/** The visit as a file would hold it; answers that cannot be read are left out. */
export function visitTree(answers: Answers, options: InterviewOptions): Tree {
  const tree: Tree = { format: 1 };
  const tests = new Map<string, Record<string, unknown>>();
  for (const { question, value } of givenAnswers(answers, options)) {
    const [top, id, part] = question.path.map(String);
    if (top === 'tests' && id !== undefined) tests.set(id, { ...tests.get(id), [part ?? 'result']: value });
    else if (question.form.kind === 'age' && typeof value === 'string') put(tree, ['client', 'born'], value);
    else put(tree, question.path, value);
  }
  for (const [id, values] of tests) putTest(tree, id, values);
  return tree;
}

export type Judgement =
  | { readonly verdict: 'ok' }
  /** Kept when confirmed. */
  | { readonly verdict: 'ask_again'; readonly message: string }
  | { readonly verdict: 'problem'; readonly message: string };

/** Everything that concerns this question: its own place, and for the age the date of birth. */
function concerns(finding: Finding, { path, form }: Question): boolean {
  const wanted =
    form.kind === 'age'
      ? [
          ['client', 'age'],
          ['client', 'born'],
        ]
      : [path];
  return wanted.some((each) => each.every((key, index) => finding.path[index] === key));
}

const inWords = ({ message, hint }: Finding): string => (hint === '' ? message : `${message}; ${hint}`);

/** What the reader of files says of this answer, beside those given before. */
export function judge(question: Question, text: string, answers: Answers, options: InterviewOptions): Judgement {
  const typed = valueTyped(question, text, options);
  if (typed === undefined)
    return question.required ? { verdict: 'problem', message: 'every visit needs this' } : { verdict: 'ok' };
  if ('problem' in typed) return { verdict: 'problem', message: typed.problem };
  if (question.form.kind === 'tests') return { verdict: 'ok' };
  const { findings } = buildSession(visitTree({ ...answers, [question.id]: text }, options), options);
  // A ceiling is asked for right after the results: no need to remind of it.
  const mine = findings.filter((finding) => concerns(finding, question) && finding.code !== 'ceiling_not_stated');
  const refusal = mine.find(isRefusal);
  if (refusal !== undefined) return { verdict: 'problem', message: inWords(refusal) };
  const [note] = mine;
  return note === undefined ? { verdict: 'ok' } : { verdict: 'ask_again', message: inWords(note) };
}
