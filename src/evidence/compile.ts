/** Build step: `norms/` -> one module, so that a run parses no YAML of its own. Run by `.config/build.mjs`. */
import { writeFileSync } from 'node:fs';
import type { EvidenceData } from './data.ts';
import { parseNorms } from './parse.ts';
import { digestOf, readNormsFolder } from './read-folder.ts';
import type { ProtocolFile } from './schema/protocol.ts';

/** Validated evidence of a whole norms folder, or the problems as lines of text. */
export function compileFolder(folder: string, version: string): EvidenceData | { readonly problems: readonly string[] } {
  const files = readNormsFolder(folder);
  const { gathered, problems } = parseNorms(files, { partial: false });
  const { places: _places, protocols: _protocols, defaults, derived, general, dose, handout, ...lists } = gathered;
  const refused = { problems: problems.map((each) => `norms/${each.file}:${each.line}:${each.column}: ${each.message}`) };
  // where a single file is missing, that is among the problems
  if (problems.length > 0 || defaults?.standing === undefined || derived === undefined || general === undefined) return refused;
  if (dose === undefined || handout === undefined) return refused;
  return {
    version,
    digest: digestOf(files),
    folders: [],
    defaults: { ...defaults, standing: defaults.standing },
    derived,
    general,
    dose,
    handout,
    ...lists,
  };
}

/** One byte a character keeps the engine's string half the size and its reading quick; JSON allows the escapes anywhere. */
const ascii = (json: string): string =>
  json.replace(/[\u0080-\uffff]/g, (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`);

/** Writes the generated module. JSON inside a string loads several times faster than an object literal of the same size. */
export function writeCompiled(data: EvidenceData, target: string): void {
  const json = JSON.stringify(ascii(JSON.stringify(data)));
  writeFileSync(
    target,
    `// Made from norms/ by the build; never edited by hand.\nexport const compiledDigest = ${JSON.stringify(data.digest)};\nexport const compiledJson: string = ${json};\n`,
  );
}

/** The digest alone, for `--version`, which must not load the evidence. */
export function writeCompiledVersion(data: EvidenceData, target: string): void {
  writeFileSync(
    target,
    `// Made from norms/ by the build; never edited by hand.\nexport const compiledDigest = ${JSON.stringify(data.digest)};\n`,
  );
}

/**
 * The cards of a norms folder that `compileFolder` has found valid, in the order of the catalogue, measurements last. They
 * stand in a module of their own: no run but `footing protocol` and `footing new` needs them.
 */
export function compileProtocols(folder: string): readonly ProtocolFile[] {
  const { protocols, tests } = parseNorms(readNormsFolder(folder), { partial: false }).gathered;
  const place = (id: string): number => {
    const index = tests.findIndex((test) => test.id === id);
    return index === -1 ? tests.length : index;
  };
  return [...protocols].sort((a, b) => place(a.id) - place(b.id) || (a.id < b.id ? -1 : 1));
}

export function writeProtocols(protocols: readonly ProtocolFile[], target: string): void {
  const json = JSON.stringify(ascii(JSON.stringify(protocols)));
  writeFileSync(
    target,
    `// Made from norms/protocols/ by the build; never edited by hand.\nexport const compiledProtocolsJson: string = ${json};\n`,
  );
}
