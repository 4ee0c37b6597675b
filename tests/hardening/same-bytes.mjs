/** One digest of everything a set of command lines prints and writes, run as processes with the given Node and environment. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** No command here depends on the day: `due` is told one. */
export const LINES = [
  ['score', 'examples/copd-74.yaml'],
  ['score', 'examples/copd-74.yaml', '--full'],
  ['score', 'examples/copd-74.yaml', 'examples/steady-66.yaml', 'examples/chair-86.yaml', '--format', 'json'],
  ['score', 'examples/steady-66.yaml', '--format', 'html', '-o', 'report.html'],
  ['score', 'examples/chair-86.yaml', '--format', 'markdown'],
  ['score', 'examples/chair-86.yaml', '--format', 'fhir'],
  ['check', 'examples'],
  ['risk', 'examples/chair-86.yaml'],
  ['change', 'examples/d-118'],
  ['change', 'examples/d-118', '--format', 'html'],
  ['due', 'examples/d-118', '--on', '2026-12-01', '--all'],
  ['handout', 'examples/copd-74.yaml', '-o', 'page.html'],
  ['cohort', 'examples/d-118', '-o', 'rows.csv', '--summary', 'group.json'],
  [
    'cohort',
    'examples/cohort-clinic.csv',
    '--columns',
    'examples/cohort-clinic.map',
    '-o',
    'clinic.csv',
    '--summary',
    'clinic.html',
  ],
  ['norms', 'list'],
  ['norms', 'book', '-o', 'book.html'],
  ['explain', 'examples/copd-74.yaml', 'level'],
  ['new', '--blank'],
];

/** SHA-256 of exit codes, both streams and files, a digest for each command line. */
export function digests(bin, { node = process.execPath, env = {} } = {}) {
  const folder = mkdtempSync(join(tmpdir(), 'footing-same-'));
  try {
    cpSync(join(root, 'examples'), join(folder, 'examples'), { recursive: true });
    return LINES.map((argv) => {
      const { status, stdout, stderr } = spawnSync(node, [bin, ...argv], {
        cwd: folder,
        env: { PATH: process.env.PATH ?? '', ...env },
      });
      const hash = createHash('sha256').update(`${status}\n`).update(stdout).update(stderr);
      for (const name of readdirSync(folder).sort())
        if (statSync(join(folder, name)).isFile()) hash.update(name).update(readFileSync(join(folder, name)));
      return `${argv.join(' ')}: ${status} ${hash.digest('hex')}`;
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
