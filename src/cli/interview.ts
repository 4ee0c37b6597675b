/** The conversation of `footing new`: one question after the other, back and forth, until the visit is whole or the person stops. */
import { type Answers, type Question, questionsFor } from '../intake/interview/questions.ts';
import { type InterviewOptions, judge, valueTyped } from '../intake/interview/visit.ts';
import { inFlow } from '../intake/write-visit.ts';
import type { Asker } from './asker.ts';

export interface Progress {
  readonly answers: Answers;
  /** Ids of the questions that were put, in order. */
  readonly asked: readonly string[];
}

export interface Interviewed extends Progress {
  readonly finished: boolean;
}

const KEYS = 'Enter: not recorded; < back; ? explains; Ctrl+C stops, to go on later';

/** What the last line says of Enter depends on the question. */
function keysOf({ required, usual }: Question): string {
  if (usual !== undefined) return KEYS.replace('not recorded', usual);
  return required ? KEYS.replace('Enter: not recorded; ', '') : KEYS;
}

function placeOf(question: Question, questions: readonly Question[]): string {
  const section = questions.filter((each) => each.section === question.section);
  return `${question.section}, ${section.indexOf(question) + 1} of ${section.length}`;
}

/** "Today" is the day of asking, also when the visit is gone on with tomorrow. */
function lasting(question: Question, text: string, options: InterviewOptions): string {
  if (question.form.kind !== 'leaf' || question.form.leaf.kind !== 'date') return text;
  const typed = valueTyped(question, text, options);
  return typed !== undefined && 'value' in typed ? String(typed.value) : text;
}

/** The value as the file will hold it. */
function echoOf(question: Question, text: string, options: InterviewOptions): string {
  const sign = text.trim();
  if (sign === '<' || sign === '?') return sign;
  const typed = valueTyped(question, text, options);
  if (typed === undefined) return 'not recorded';
  return 'problem' in typed ? sign : inFlow(typed.value);
}

/**
 * Asks from where `begun` ended. `explain` gives the text for `?`; `keep` is called after every answer, so that nothing typed
 * is lost when the terminal goes away.
 */
export async function interview(
  asker: Asker,
  options: InterviewOptions,
  begun: Progress,
  { explain, keep }: { readonly explain: (question: Question) => string; readonly keep: (progress: Progress) => void },
): Promise<Interviewed> {
  let answers: Record<string, string> = { ...begun.answers };
  let asked: string[] = [...begun.asked];
  for (;;) {
    const questions = questionsFor(answers, options.catalogue, options.all);
    const question = questions.find(({ id }) => !asked.includes(id));
    if (question === undefined) return { answers, asked, finished: true };
    const reply = await asker.ask({
      place: placeOf(question, questions),
      ask: question.ask,
      detail: question.detail ?? '',
      hint: `${question.hint === '' ? '' : `${question.hint}.  `}${keysOf(question)}`,
      before: answers[question.id] ?? '',
      echo: (text) => echoOf(question, text, options),
      judge: (text) => judge(question, text, answers, options),
    });
    if (reply.kind === 'stop') return { answers, asked, finished: false };
    if (reply.kind === 'explain') asker.tell(explain(question));
    else if (reply.kind === 'back') asked = stepBack(asked, questions);
    else {
      answers = { ...answers, [question.id]: lasting(question, reply.text, options) };
      asked.push(question.id);
      keep({ answers, asked });
    }
  }
}

/** Without the last question that still is one: an answer may have made later ones disappear. */
function stepBack(asked: readonly string[], questions: readonly Question[]): string[] {
  const last = asked.findLastIndex((id) => questions.some((question) => question.id === id));
  return last === -1 ? [] : asked.slice(0, last);
}
