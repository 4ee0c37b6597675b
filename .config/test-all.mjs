// The whole check, in the order in which a fault is cheapest to find: types, lint, tests on source, command tests on the
// built program and on the packed one. Ends with one line on what needs a program that this machine does not have.
import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));

function run(title, command, args, env = {}, cwd = root) {
  console.log(`\n== ${title}`);
  const { status, error } = spawnSync(command, args, {
    cwd,
    stdio: 'inherit',
    shell: process.platform === 'win32',
    env: { ...process.env, ...env },
  });
  if (error !== undefined || status !== 0) {
    console.error(`${title}: failed`);
    process.exit(1);
  }
}

const vitest = ['vitest', 'run', '--config', '.config/vitest.config.ts'];
run('types', 'npx', ['tsc', '--noEmit']);
run('lint and format', 'npx', ['biome', 'check', '--config-path=.config/lint.json', '.']);
run('build', 'npm', ['run', '--silent', 'build']);
run('tests on source', 'npx', vitest);
run('command tests on the built program', 'npx', [...vitest, 'tests/cli', 'tests/docs'], {
  FOOTING_BIN: join(root, 'bin', 'footing.js'),
});

run('package lint', 'npx', ['publint', '--strict']);

/** Most bytes that the packed program may have. */
const LARGEST_PACKAGE = 3_000_000;

const folder = mkdtempSync(join(tmpdir(), 'footing-pack-'));
try {
  run('pack', 'npm', ['pack', '--silent', '--pack-destination', folder]);
  const tarball = readdirSync(folder).find((name) => name.endsWith('.tgz'));
  const { size } = statSync(join(folder, tarball));
  console.log(`${tarball}: ${size} bytes`);
  if (size >= LARGEST_PACKAGE) throw new Error(`the package is ${size} bytes, more than ${LARGEST_PACKAGE}`);
  const target = join(folder, 'node_modules', 'footing');
  mkdirSync(target, { recursive: true });
  run('unpack', 'tar', ['-xzf', join(folder, tarball), '-C', target, '--strip-components=1']);
  run('command tests on the packed program', 'npx', [...vitest, 'tests/cli', 'tests/docs'], {
    FOOTING_BIN: join(target, 'bin', 'footing.js'),
  });
  run('single executable file', 'npm', ['run', '--silent', 'single']);
  // Alone in a folder: no node_modules, no norms, no Node of its own on the way.
  const name = process.platform === 'win32' ? 'footing.exe' : 'footing';
  const alone = join(folder, 'alone');
  mkdirSync(alone);
  copyFileSync(join(root, 'build', name), join(alone, name));
  run(
    'command tests on the single file',
    'npx',
    [...vitest, ...['score', 'check', 'help', 'settings', 'new'].map((test) => `tests/cli/${test}.test.ts`)],
    {
      FOOTING_BIN: join(alone, name),
    },
  );
} finally {
  rmSync(folder, { recursive: true, force: true });
}

/** Programs of Debian's packages that some checks need; `.ci/run` installs them. */
const programs = {
  chromium: 'pages in a real browser',
  parallel: 'filters under GNU parallel',
  pandoc: 'document conversion',
  pdftotext: 'reading printed pages',
};
const onPath = (name) => (process.env.PATH ?? '').split(delimiter).some((part) => existsSync(join(part, name)));
const left = Object.entries(programs).filter(([name]) => !onPath(name));
console.log(
  left.length === 0
    ? '\nAll checks were run, also those that need programs from outside.'
    : `\nLeft to .ci/run: ${left.map(([name, what]) => `${what} (${name})`).join(', ')}.`,
);
