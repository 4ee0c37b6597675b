/** `footing norms cite`: the bibliography for a report or a paper. */
import { Command, Option } from 'commander';
import { assess } from '../assess.ts';
import type { Evidence } from '../evidence/data.ts';
import { cslItem } from '../report/bibliography/csl.ts';
import { escapedJson } from '../report/json.ts';
import { evidenceFor } from './evidence.ts';
import { CannotStart } from './io.ts';
import type { Invocation } from './main.ts';
import { checkSource } from './norms-show.ts';
import { writeResult } from './output.ts';
import { readSessions } from './read-sessions.ts';

interface CiteOptions {
  readonly format: 'bibtex' | 'csl-json';
  readonly visit?: string;
  readonly output?: string;
}

const HELP = `
Without SOURCE all sources are cited; with --visit those that the result of that visit rests on. A citation that is not in the
plain form "Authors. Title. Journal. Year;volume(issue):pages." stands whole as the title: nothing in it is guessed.

Examples:
  footing norms cite bohannon-2006-tug pondal-2008-tug
  footing norms cite --visit examples/copd-74.yaml --format csl-json -o sources.json
`;

export function citeCommand(invocation: () => Invocation): Command {
  return new Command('cite')
    .description('print citations as BibTeX or CSL-JSON')
    .argument('[source...]', 'ids of sources')
    .addOption(new Option('-f, --format <format>', 'how to print').choices(['bibtex', 'csl-json']).default('bibtex'))
    .option('--visit <file>', 'the sources that the result of this visit rests on')
    .option('-o, --output <file>', 'write here instead of to standard output')
    .addHelpText('after', HELP)
    .action((sources: string[], options: CiteOptions) => cite(sources, options, invocation()));
}

async function idsOf(
  sources: readonly string[],
  options: CiteOptions,
  evidence: Evidence,
  invocation: Invocation,
): Promise<string[] | null> {
  if (options.visit === undefined) {
    for (const id of sources) checkSource(evidence, id);
    return sources.length === 0 ? Object.keys(evidence.sources).sort() : [...new Set(sources)];
  }
  if (sources.length > 0) throw new CannotStart('name sources or a visit, not both');
  const { sessions, code } = await readSessions([options.visit], evidence, invocation);
  invocation.finish(code);
  const [session] = sessions;
  return session === undefined ? null : Object.keys(assess(session, evidence, { population: invocation.population }).sources);
}

async function cite(sources: readonly string[], options: CiteOptions, invocation: Invocation): Promise<void> {
  const evidence = await evidenceFor(invocation);
  const ids = await idsOf(sources, options, evidence, invocation);
  if (ids === null) return;
  const items = ids.flatMap((id) => {
    const source = evidence.sources[id];
    return source === undefined ? [] : [cslItem(id, source)];
  });
  const text =
    options.format === 'csl-json' ? escapedJson(items) : (await import('../report/bibliography/bibtex.ts')).bibtexOf(items);
  writeResult(text, options.output, invocation);
}
