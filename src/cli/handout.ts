/** `footing handout FILE`: one visit -> the page that the client takes home. */
import { Command, InvalidArgumentError, Option } from 'commander';
import { assess } from '../assess.ts';
import type { Assessment } from '../assessment.ts';
import type { Evidence } from '../evidence/data.ts';
import type { Language } from '../evidence/schema/handout.ts';
import { nearest } from '../intake/near.ts';
import type { HandoutView } from '../report/handout/types.ts';
import type { Session } from '../session.ts';
import { evidenceFor } from './evidence.ts';
import { CannotStart, EXIT } from './io.ts';
import type { Invocation } from './main.ts';
import { writeOutput } from './output.ts';
import { readSessions } from './read-sessions.ts';
import { assessOptions, type RiskOptions, withPathwayOptions } from './risk-options.ts';

interface HandoutOptions extends RiskOptions {
  readonly format: 'html' | 'text' | 'docx';
  readonly output?: string;
  readonly exercises?: readonly string[];
  readonly paper: 'a4' | 'letter';
  readonly emergencyNumber?: string;
  readonly language?: string;
  readonly letterhead?: readonly string[];
}

const HELP = `
FILE is a visit in YAML; - reads standard input. The page holds the exercises that the file chooses (plan: {choose: [...]}),
else a short list of at most nine. A red flag that nobody has cleared holds the page: record it under clearance in the file.

Examples:
  footing handout examples/copd-74.yaml -o page.html
  footing handout examples/copd-74.yaml --exercises sit_to_stand,tandem_standing --format text

Exit code: 0 done, 1 the file was refused or the plan is held, 2 the work cannot start.
`;

const idsOf = (text: string): readonly string[] => {
  const ids = text.split(',').map((id) => id.trim().replaceAll('-', '_'));
  if (ids.some((id) => id === ''))
    throw new InvalidArgumentError('write ids with a comma between them, such as squat,heel_raises.');
  return ids;
};

const shortLine = (text: string): string => {
  if (!/^[0-9+ ()-]{2,20}$/.test(text.trim())) throw new InvalidArgumentError('write a telephone number.');
  return text.trim();
};

export function handoutCommand(invocation: () => Invocation): Command {
  const command = new Command('handout')
    .description("make the client's page: exercises in large print with drawings")
    .argument('<file>', 'a visit file, or - for standard input')
    .addOption(new Option('-f, --format <format>', 'how to write it').choices(['html', 'text', 'docx']).default('html'))
    .option('-o, --output <file>', 'write here instead of to standard output')
    .addOption(new Option('--exercises <ids>', 'print these exercises, ids with a comma between them').argParser(idsOf))
    .addOption(new Option('--paper <size>', 'paper it is printed on').choices(['a4', 'letter']).default('a4'))
    .addOption(
      new Option('--emergency-number <number>', 'local emergency number; a blank line where it is not given').argParser(
        shortLine,
      ),
    )
    .option('--language <tag>', 'language of the page, such as en')
    .option('--letterhead <line...>', 'lines at the head of the page, the clinic first');
  return withPathwayOptions(command)
    .addHelpText('after', HELP)
    .action((file: string, options: HandoutOptions) => handout(file, options, invocation()));
}

async function handout(file: string, options: HandoutOptions, invocation: Invocation): Promise<void> {
  if (options.format === 'docx' && options.output === undefined)
    throw new CannotStart('a Word file cannot be shown on the screen; name a file with -o, such as -o page.docx');
  const evidence = await evidenceFor(invocation);
  const how = assessOptions(evidence, options, invocation);
  const language = languageOf(options.language ?? invocation.settings.language?.value ?? 'en', evidence);
  checkExercises(options.exercises ?? [], evidence);
  const { sessions, code } = await readSessions([file], evidence, invocation);
  invocation.finish(code);
  const [session] = sessions;
  if (session === undefined) return;
  const assessment = assess(session, evidence, how);
  const wanted = wantedOf(options.exercises, assessment);
  const refusals = refusalsOf(assessment, wanted, session);
  if (refusals.length > 0) {
    for (const line of refusals) invocation.io.stderr.write(`footing: ${line}\n`);
    invocation.finish(EXIT.refused);
    return;
  }
  warnOfOverrides(assessment, wanted, invocation);
  const { handoutView } = await import('../report/handout/view.ts');
  const view = handoutView({
    assessment,
    session,
    evidence,
    language,
    exercises: wanted,
    emergencyNumber: options.emergencyNumber ?? invocation.settings.emergency_number?.value,
    letterhead: options.letterhead,
  });
  await writeView(view, options, invocation);
}

function languageOf(tag: string, { languages }: Evidence): Language {
  const found = languages.find(({ language }) => language === tag);
  if (found !== undefined) return found;
  const known = languages.map(({ language }) => language).join(', ');
  throw new CannotStart(`the page cannot be made in "${tag}"; known: ${known}. A clinic adds a language in its own norms folder`);
}

function checkExercises(ids: readonly string[], { exercises }: Evidence): void {
  const known = exercises.map(({ id }) => id);
  const strange = ids.find((id) => !known.includes(id));
  if (strange === undefined) return;
  throw new CannotStart(
    `there is no exercise "${strange}"; write ${nearest(strange, known) ?? `one of ${known.join(', ')}`} instead`,
  );
}

/** In the order of a session, whatever the order they were named in. */
const wantedOf = (named: readonly string[] | undefined, { plan }: Assessment): string[] =>
  plan.filter((each) => (named === undefined ? each.goes_home : named.includes(each.exercise))).map(({ exercise }) => exercise);

/** Why there is no page; empty where there may be one. */
function refusalsOf({ risk, plan }: Assessment, wanted: readonly string[], { client }: Session): string[] {
  const open = risk.red_flags.filter((flag) => flag.cleared === null);
  if (open.length > 0)
    return [
      `no page for ${client.ref}: a red flag holds the plan`,
      ...open.map((flag) => `  ${flag.finding}: ${flag.action}`),
      `once it is dealt with, write in the file: clearance: {by: NAME, date: DAY, for: ${open.map(({ id }) => id)[0] ?? ''}}`,
    ];
  const held = plan.filter((each) => each.held && (wanted.length === 0 || wanted.includes(each.exercise)));
  if (held.length > 0) {
    const reasons = [...new Set(held.flatMap((each) => each.limited_by.filter((line) => line.startsWith('held'))))];
    return [`no page for ${client.ref}: ${held.map(({ name }) => name).join(', ')}`, ...reasons.map((reason) => `  ${reason}`)];
  }
  return wanted.length === 0 ? [`no page for ${client.ref}: every exercise is left out in the file`] : [];
}

/** A level set beyond a cap goes on the page as the professional's own; it is said here once more. */
function warnOfOverrides({ plan }: Assessment, wanted: readonly string[], { io }: Invocation): void {
  for (const { exercise, name, override } of plan) {
    if (override === null || !wanted.includes(exercise)) continue;
    for (const warning of override.warnings) io.stderr.write(`footing: ${name}, level set by hand: ${warning}\n`);
    if (override.refused !== null) io.stderr.write(`footing: ${name}: ${override.refused}\n`);
  }
}

async function writeView(view: HandoutView, options: HandoutOptions, invocation: Invocation): Promise<void> {
  const content = await render(view, options);
  if (options.output !== undefined) writeOutput(options.output, content, invocation);
  else if (typeof content === 'string') invocation.io.stdout.write(content);
}

/** Each format is loaded only when it is asked for; the Word library is by far the largest. */
async function render(view: HandoutView, { format, paper }: HandoutOptions): Promise<string | Uint8Array> {
  if (format === 'docx') return (await import('../report/handout/docx.ts')).renderHandoutDocx(view, { paper });
  if (format === 'text') return (await import('../report/handout/text.ts')).renderHandoutText(view);
  return (await import('../report/handout/html.ts')).renderHandoutHtml(view, { paper });
}
