/** What the build made of norms/ is of today's norms/. */
import { expect, it } from 'vitest';
import { compiledDigest } from '../../src/evidence/compiled.ts';
import { compiledDigest as shown } from '../../src/evidence/compiled-version.ts';
import { digestOf, readNormsFolder } from '../../src/evidence/read-folder.ts';
import { normsFolder } from '../support/evidence.ts';

it('the compiled evidence has the digest of the folder (else run: npm run norms)', () => {
  expect(compiledDigest).toBe(digestOf(readNormsFolder(normsFolder)));
  expect(shown).toBe(compiledDigest);
});
