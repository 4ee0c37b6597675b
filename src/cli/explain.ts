/** `footing explain FILE WHAT`: how one statement came about, and what would change it. */
import { Command } from 'commander';
import { assess } from '../assess.ts';
import { nearest } from '../intake/near.ts';
import type { Explanation } from '../report/explain/subjects.ts';
import { colourFor } from './colour.ts';
import { evidenceFor } from './evidence.ts';
import { CannotStart } from './io.ts';
import type { Invocation } from './main.ts';
import { readSessions } from './read-sessions.ts';
import { assessOptions, type RiskOptions, withPathwayOptions } from './risk-options.ts';

const HELP = `
WHAT is level, a test (timed_up_and_go; a side as single_leg_stance_eyes_open.left), an exercise, a factor, a red flag or a
source, by its id. Without WHAT everything that can be explained is listed.

Examples:
  footing explain examples/copd-74.yaml level
  footing explain examples/copd-74.yaml timed_up_and_go

Exit code: 0 done, 1 the file was refused, 2 the work cannot start.
`;

export function explainCommand(invocation: () => Invocation): Command {
  const command = new Command('explain')
    .description('show the row, formula and source behind one statement')
    .argument('<file>', 'a visit file, or - for standard input')
    .argument('[what]', 'id of what is to be explained');
  return withPathwayOptions(command)
    .addHelpText('after', HELP)
    .action((file: string, what: string | undefined, options: RiskOptions) => explain(file, what, options, invocation()));
}

async function explain(file: string, what: string | undefined, options: RiskOptions, invocation: Invocation): Promise<void> {
  const { io, noColour } = invocation;
  const evidence = await evidenceFor(invocation);
  const how = assessOptions(evidence, options, invocation);
  const { sessions, code } = await readSessions([file], evidence, invocation);
  invocation.finish(code);
  const [session] = sessions;
  if (session === undefined) return;
  const { explanationsOf } = await import('../report/explain/subjects.ts');
  const { renderExplanation } = await import('../report/explain/text.ts');
  const all = explanationsOf({ session, assessment: assess(session, evidence, how), evidence, options: how });
  if (what === undefined) {
    io.stdout.write(list(all));
    return;
  }
  const found = chosen(all, what);
  const colour = colourFor(io.stdout, io.env, noColour);
  io.stdout.write(found.map((each) => renderExplanation(each, { width: io.stdout.columns ?? 80, colour })).join('\n'));
}

const list = (all: readonly Explanation[]): string => {
  const width = Math.max(...all.map(({ key }) => key.length));
  return `${all.map(({ key, title }) => `${key.padEnd(width)}  ${title}`).join('\n')}\n`;
};

/** A test without its side means both sides; hyphens are as good as underscores. */
function chosen(all: readonly Explanation[], what: string): Explanation[] {
  const id = what.trim();
  const same = all.filter(({ key }) => key === id);
  if (same.length > 0) return same;
  const underscored = id.replaceAll('-', '_');
  const wider = all.filter(({ key }) => key === underscored || key.startsWith(`${underscored}.`));
  if (wider.length > 0) return wider;
  const near = nearest(
    underscored,
    all.map(({ key }) => key),
  );
  throw new CannotStart(
    `there is nothing called "${what}" in this visit${near === undefined || near === null ? '' : `; did you mean ${near}?`} Without it, everything that can be explained is listed`,
  );
}
