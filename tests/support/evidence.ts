/** The project's own norms, read from the folder, for tests on source. */
import { fileURLToPath } from 'node:url';
import { bundledEvidence } from '../../src/evidence/bundled.ts';
import { compileFolder } from '../../src/evidence/compile.ts';
import { type Evidence, indexEvidence } from '../../src/evidence/data.ts';

export const normsFolder = fileURLToPath(new URL('../../norms', import.meta.url));

let loaded: Evidence | undefined;

/** From the folder; in a run of mutants, which pays for this thousands of times, what the build made of the folder. */
export function testEvidence(): Evidence {
  if (process.env.FOOTING_BUILT_NORMS !== undefined) return bundledEvidence();
  if (loaded === undefined) {
    const data = compileFolder(normsFolder, 'test');
    if ('problems' in data) throw new Error(`norms/ does not compile:\n${data.problems.join('\n')}`);
    loaded = indexEvidence(data);
  }
  return loaded;
}
