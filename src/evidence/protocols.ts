/** The protocol cards that ship with the program, in the order of the catalogue. Only what shows a card loads this. */
import { compiledProtocolsJson } from './compiled-protocols.ts';
import type { ProtocolFile } from './schema/protocol.ts';

let bundled: readonly ProtocolFile[] | undefined;

/** Parsed once a process; the build validated it. */
export function bundledProtocols(): readonly ProtocolFile[] {
  bundled ??= JSON.parse(compiledProtocolsJson) as readonly ProtocolFile[];
  return bundled;
}
