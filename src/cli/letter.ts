/** `footing letter FILE`: one visit -> one page for the referrer, a specialist or the client's file. */
import { extname } from 'node:path';
import { Command, Option } from 'commander';
import { assess } from '../assess.ts';
import type { Letter, People, Receiver } from '../report/letter/types.ts';
import { evidenceFor } from './evidence.ts';
import { CannotStart, EXIT, fileErrorInWords } from './io.ts';
import type { Invocation } from './main.ts';
import { writeOutput } from './output.ts';
import { readSessions } from './read-sessions.ts';
import { assessOptions, type RiskOptions, withPathwayOptions } from './risk-options.ts';

const FORMATS = ['text', 'markdown', 'html', 'docx'] as const;

interface LetterOptions extends RiskOptions {
  readonly format: (typeof FORMATS)[number];
  readonly to: Receiver;
  readonly output?: string;
  readonly template?: string;
  readonly placeholders?: boolean;
  readonly people?: string;
  readonly clientName?: string;
  readonly toName?: string;
  readonly toAddress?: readonly string[];
  readonly fromName?: string;
  readonly fromRole?: string;
  readonly fromContact?: string;
  readonly copyTo?: readonly string[];
  readonly letterhead?: readonly string[];
  readonly paper: 'a4' | 'letter';
}

const HELP = `
FILE is a visit in YAML; - reads standard input. Names and addresses come from flags or from a file of their own (--people),
so that the visit stays under its reference. Read the letter before you sign it.

A --people file:  client: {name: ..., born: 1951-02-03, address: [...]}
                  to: {name: ..., address: [...]}
                  from: {name: ..., role: ..., registration: ..., telephone: ...}
                  copies: [...]

A --template is a file of your own with {{ slots }} (Liquid); every slot is escaped. --placeholders lists them.

Examples:
  footing letter examples/chair-86.yaml
  footing letter examples/chair-86.yaml --to specialist --format html -o letter.html

Exit code: 0 done, 1 the file was refused or the client does not agree to sharing, 2 the work cannot start.
`;

export function letterCommand(invocation: () => Invocation): Command {
  const command = new Command('letter')
    .description('write one page to the referring doctor')
    .argument('[file]', 'a visit file, or - for standard input')
    .addOption(new Option('-f, --format <format>', 'how to write it').choices(FORMATS).default('text'))
    .addOption(new Option('--to <receiver>', 'who it is for').choices(['gp', 'specialist', 'client-file']).default('gp'))
    .option('-o, --output <file>', 'write here instead of to standard output')
    .option('--template <file>', "the clinic's own template (text, markdown or html)")
    .option('--placeholders', 'list what a template may hold, and stop')
    .option('--people <file>', 'names and addresses (YAML)')
    .option('--client-name <name>', 'name of the client')
    .option('--to-name <name>', 'name of the receiver')
    .option('--to-address <line...>', 'address of the receiver, line by line')
    .option('--from-name <name>', 'who signs')
    .option('--from-role <role>', 'profession of who signs')
    .option('--from-contact <text>', 'telephone or other contact')
    .option('--copy-to <name...>', 'who else gets it')
    .option('--letterhead <line...>', 'lines at the head of the page, the clinic first')
    .addOption(new Option('--paper <size>', 'paper of a Word file').choices(['a4', 'letter']).default('a4'));
  return withPathwayOptions(command)
    .addHelpText('after', HELP)
    .action((file: string | undefined, options: LetterOptions) => letter(file, options, invocation()));
}

async function letter(file: string | undefined, options: LetterOptions, invocation: Invocation): Promise<void> {
  if (options.placeholders === true) return listPlaceholders(invocation);
  if (file === undefined) throw new CannotStart('name a visit file, such as: footing letter examples/chair-86.yaml');
  if (options.format === 'docx' && options.output === undefined)
    throw new CannotStart('a Word file cannot be shown on the screen; name a file with -o, such as -o letter.docx');
  if (options.format === 'docx' && options.template !== undefined)
    throw new CannotStart('a template is text, Markdown or HTML; leave out --format docx, or convert the result');
  const people = await peopleOf(options, invocation);
  const evidence = await evidenceFor(invocation);
  const how = assessOptions(evidence, options, invocation);
  const { sessions, code } = await readSessions([file], evidence, invocation);
  invocation.finish(code);
  const [session] = sessions;
  if (session === undefined) return;
  if (session.consentToShare === 'no' && options.to !== 'client-file') {
    invocation.io.stderr.write(
      'footing: the file says that the client does not agree to sharing, so there is no letter; --to client-file writes it for your own file\n',
    );
    invocation.finish(EXIT.refused);
    return;
  }
  const { letterOf } = await import('../report/letter/letter.ts');
  const made = letterOf({
    assessment: assess(session, evidence, how),
    people,
    letterhead: options.letterhead ?? [],
    receiver: options.to,
    written: invocation.io.today(),
  });
  await write(made, options, invocation);
}

async function listPlaceholders({ io }: Invocation): Promise<void> {
  const { PLACEHOLDERS } = await import('../report/letter/template.ts');
  const width = Math.max(...PLACEHOLDERS.map(([name]) => name.length));
  for (const [name, about] of PLACEHOLDERS) io.stdout.write(`${name.padEnd(width)}  ${about}\n`);
}

function readFileOrStop(path: string, { io }: Invocation): string {
  try {
    return io.readFile(path);
  } catch (error) {
    throw new CannotStart(`cannot read ${path}: ${fileErrorInWords(error)}`);
  }
}

const inWords = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Flags come before the file. */
async function peopleOf(options: LetterOptions, invocation: Invocation): Promise<People> {
  const { NOBODY, parsePeople } = await import('../report/letter/people.ts');
  let file = NOBODY;
  if (options.people !== undefined) {
    const text = readFileOrStop(options.people, invocation);
    try {
      file = parsePeople(text);
    } catch (error) {
      throw new CannotStart(`${options.people}: ${inWords(error)}`);
    }
  }
  return {
    client: { ...file.client, name: options.clientName ?? file.client.name },
    to: { name: options.toName ?? file.to.name, address: options.toAddress ?? file.to.address },
    from: {
      ...file.from,
      name: options.fromName ?? file.from.name,
      role: options.fromRole ?? file.from.role,
      telephone: options.fromContact ?? file.from.telephone,
    },
    copies: options.copyTo ?? file.copies,
  };
}

const TEMPLATE_FORMATS: Readonly<Record<string, 'markdown' | 'html'>> = {
  '.md': 'markdown',
  '.markdown': 'markdown',
  '.html': 'html',
  '.htm': 'html',
};

async function fromTemplate(made: Letter, path: string, invocation: Invocation): Promise<string> {
  const { filledTemplate } = await import('../report/letter/template.ts');
  const template = readFileOrStop(path, invocation);
  try {
    return filledTemplate(template, made, TEMPLATE_FORMATS[extname(path).toLowerCase()] ?? 'text');
  } catch (error) {
    throw new CannotStart(`${path}: ${inWords(error).split('\n')[0]}; --placeholders lists what a template may hold`);
  }
}

async function rendered(made: Letter, options: LetterOptions, invocation: Invocation): Promise<string | Uint8Array> {
  if (options.template !== undefined) return fromTemplate(made, options.template, invocation);
  switch (options.format) {
    case 'docx':
      return (await import('../report/letter/docx.ts')).letterDocx(made, options.paper);
    case 'html':
      return (await import('../report/letter/html.ts')).letterHtml(made);
    case 'markdown':
      return (await import('../report/letter/text.ts')).letterMarkdown(made);
    case 'text':
      return (await import('../report/letter/text.ts')).letterText(made);
  }
}

async function write(made: Letter, options: LetterOptions, invocation: Invocation): Promise<void> {
  const content = await rendered(made, options, invocation);
  if (options.output !== undefined) writeOutput(options.output, content, invocation);
  else if (typeof content === 'string') invocation.io.stdout.write(content);
}
