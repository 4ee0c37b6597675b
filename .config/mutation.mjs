// Mutation testing, on request and never part of `npm test`: `npm run mutation` for every room, `npm run mutation -- risk` for
// one, `npm run mutation -- risk --mutate src/risk/odds.ts` for one file; what follows the room is handed to Stryker.
// Reports, results kept for the next run and the copy of the tree that is changed lie in .footing-mutation/<room>/.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { ROOMS } from './stryker.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const [first, ...rest] = process.argv.slice(2);
const named = first !== undefined && !first.startsWith('-');
if (named && !ROOMS.includes(first)) {
  console.error(`mutation: no room "${first}"; the rooms are ${ROOMS.join(', ')}`);
  process.exit(2);
}
const options = named ? rest : process.argv.slice(2);

// The tests look at the norms as the build leaves them.
spawnSync(process.execPath, ['.config/build.mjs', 'norms'], { cwd: root, stdio: 'inherit' });

let failed = false;
for (const room of named ? [first] : ROOMS) {
  console.log(`\n== ${room}`);
  const { status } = spawnSync('npx', ['stryker', 'run', '.config/stryker.mjs', ...options], {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
    env: { ...process.env, FOOTING_ROOM: room },
  });
  failed ||= status !== 0;
}
process.exit(failed ? 1 : 0);
