/** `footing norms book`: the whole collection as one page. */
import { Command } from 'commander';
import { evidenceFor } from './evidence.ts';
import type { Invocation } from './main.ts';
import { writeResult } from './output.ts';

const HELP = `
One HTML page without anything loaded from elsewhere: contents, every table with its source and status, cut-points, errors,
and the papers that still have to be read in full text. Print it from a browser to review it against the papers.

Examples:
  footing norms book -o norms.html
  footing norms book --norms my-norms -o norms.html
`;

export function bookCommand(invocation: () => Invocation): Command {
  return new Command('book')
    .description('write the whole collection as one readable, printable page')
    .option('-o, --output <file>', 'write here instead of to standard output')
    .addHelpText('after', HELP)
    .action((options: { readonly output?: string }) => book(options, invocation()));
}

async function book(options: { readonly output?: string }, invocation: Invocation): Promise<void> {
  const evidence = await evidenceFor(invocation);
  const { renderBook } = await import('../report/norms-book/html.ts');
  const page = renderBook(evidence);
  writeResult(page, options.output, invocation);
}
