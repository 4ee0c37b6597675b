/** The asking part of `footing new`: going on with a draft, the conversation, writing the file, and what to do with it next. */
import type { Evidence } from '../evidence/data.ts';
import { bundledProtocols } from '../evidence/protocols.ts';
import type { Answers, Question } from '../intake/interview/questions.ts';
import { type InterviewOptions, visitTree } from '../intake/interview/visit.ts';
import { sessionJsonSchema } from '../intake/session-schema.ts';
import { visitText } from '../intake/write-visit.ts';
import { renderProtocolText } from '../report/protocol/text.ts';
import { protocolView } from '../report/protocol/view.ts';
import { pageWidth } from '../report/text/layout.ts';
import type { Asker } from './asker.ts';
import { colourFor } from './colour.ts';
import { COMMANDS } from './commands.ts';
import { interview, type Progress } from './interview.ts';
import { CannotStart, type Io } from './io.ts';
import { type Invocation, main } from './main.ts';
import { terminalAsker } from './terminal-asker.ts';

export interface Wanted {
  readonly all: boolean;
  /** Short names, empty where they are asked for. */
  readonly tests: string;
}

const DRAFT = '.draft';
const SCHEMA = 'visit.schema.json';

/** Letters that may stand in a file name everywhere. */
const fileWord = (text: string): string => text.replace(/[^\w.-]+/g, '-');

/** Made of reference and day; undefined until both are known. */
function fileOf({ 'client.ref': ref, assessed }: Answers, today: string): string | undefined {
  if (ref === undefined || ref === '' || assessed === undefined) return undefined;
  return `${fileWord(ref)}-${/^\d{4}-/.test(assessed) ? assessed : today}.yaml`;
}

function textOf(path: string, io: Io): string | null {
  try {
    return io.readFile(path);
  } catch {
    return null;
  }
}

function progressOf(text: string): Progress | null {
  try {
    const { answers, asked } = JSON.parse(text) as Partial<Progress>;
    const texts =
      typeof answers === 'object' && answers !== null && Object.values(answers).every((each) => typeof each === 'string');
    const usable = texts && Array.isArray(asked);
    return usable ? { answers, asked: asked.map(String) } : null;
  } catch {
    return null;
  }
}

interface Draft {
  readonly path: string;
  readonly progress: Progress;
}

/** The draft of this file; without a file the newest by name in the working folder. */
function draftOf(file: string | undefined, io: Io): Draft | null {
  const candidates = file === undefined ? (io.listFolder('.') ?? []).filter((path) => path.endsWith(DRAFT)) : [`${file}${DRAFT}`];
  for (const path of [...candidates].reverse()) {
    const progress = progressOf(textOf(path, io) ?? '');
    if (progress !== null) return { path, progress };
  }
  return null;
}

/** Text behind `?`. */
function explanation(question: Question, evidence: Evidence, { io, noColour }: Invocation): string {
  const page = { width: pageWidth(io.stdout.columns ?? 80), colour: colourFor(io.stdout, io.env, noColour) };
  const card = bundledProtocols().find(({ id }) => id === question.card);
  if (card !== undefined) return `\n${renderProtocolText([protocolView(card, evidence)], page)}`;
  if (question.form.kind === 'tests') {
    const lines = evidence.tests.map(({ id, name, headings }) => `  ${(headings[0] ?? id).padEnd(22)} ${name}`);
    return `\nShort names and tests; ids, the beginning of a name and other usual short names work too\n${lines.join('\n')}\n`;
  }
  const field = evidence.fields.find((each) => each.field === question.id);
  const limits = field === undefined ? '' : ` Refused: ${field.impossible.why}`;
  return `\n${question.ask}. Can be: ${question.hint === '' ? 'a text' : question.hint}.${limits}\n`;
}

function asksOn({ io, noColour }: Invocation): Asker {
  if (io.asker !== undefined) return io.asker;
  if (io.stdin.isTerminal) return terminalAsker(io, noColour);
  throw new CannotStart(
    '"footing new" asks questions and needs a terminal; "footing new --blank" writes an empty form to fill in',
  );
}

const isThere = (path: string, io: Io): boolean => textOf(path, io) !== null;

function refuseExisting(path: string, io: Io): void {
  if (isThere(path, io)) throw new CannotStart(`${path} is there already; give another name: footing new FILE`);
}

/** Asks, writes, and offers what to do with the file. @throws CannotStart where the file is there already. */
export async function askVisit(
  file: string | undefined,
  wanted: Wanted,
  evidence: Evidence,
  invocation: Invocation,
): Promise<void> {
  const { io } = invocation;
  if (file !== undefined) refuseExisting(file, io);
  const asker = asksOn(invocation);
  const draft = draftOf(file, io);
  const resumes = draft !== null && (await asker.confirm(`Go on with ${draft.path.slice(0, -DRAFT.length)}?`, true));
  const begun: Progress = resumes ? draft.progress : { answers: wanted.tests === '' ? {} : { tests: wanted.tests }, asked: [] };
  const options: InterviewOptions = { catalogue: evidence, today: io.today(), all: wanted.all };
  const target = (answers: Answers): string | undefined =>
    file ?? (resumes ? draft.path.slice(0, -DRAFT.length) : fileOf(answers, options.today));
  const keep = ({ answers, asked }: Progress): void => {
    const path = target(answers);
    if (path !== undefined) io.writeFile(`${path}${DRAFT}`, JSON.stringify({ answers, asked }));
  };
  const { answers, finished } = await interview(asker, options, begun, {
    explain: (question) => explanation(question, evidence, invocation),
    keep,
  });
  const path = target(answers);
  if (!finished || path === undefined) {
    asker.tell(
      path === undefined
        ? '\nStopped; nothing was kept yet.'
        : `\nStopped. To go on: footing new${file === undefined ? '' : ` ${file}`}`,
    );
    return;
  }
  refuseExisting(path, io);
  write(path, answers, evidence, options, io);
  io.removeFile?.(`${path}${DRAFT}`);
  asker.tell(`\nwrote ${path}`);
  await offer(path, asker, invocation);
}

function write(path: string, answers: Answers, evidence: Evidence, options: InterviewOptions, io: Io): void {
  io.writeFile(path, visitText({ tree: visitTree(answers, options), emptyKeys: [], emptyTests: [], tests: evidence.tests }));
  const schema = path.replace(/[^/\\]*$/, SCHEMA);
  if (!isThere(schema, io)) io.writeFile(schema, `${JSON.stringify(sessionJsonSchema(evidence.tests), null, 2)}\n`);
}

/** What the visit can be used for next: the command line and the question. */
const OFFERS: readonly { readonly command: string; readonly ask: string; readonly usual: boolean }[] = [
  { command: 'score', ask: 'Show the assessment?', usual: true },
  { command: 'letter', ask: 'Show the letter to the referrer?', usual: false },
  { command: 'handout', ask: 'Show the page for the client?', usual: false },
];

async function offer(path: string, asker: Asker, invocation: Invocation): Promise<void> {
  for (const { command, ask, usual } of OFFERS.filter((each) => COMMANDS.some(({ name }) => name === each.command))) {
    if (!(await asker.confirm(ask, usual))) continue;
    invocation.finish(await main([command, path], invocation.io));
    asker.tell(`(again: footing ${command} ${path})`);
  }
}
