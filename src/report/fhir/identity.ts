/** Addresses made from the content, so that the same visit always gives the same file. */
import { createHash } from 'node:crypto';
import type { BundleEntry, FhirResource, Reference } from './r4.ts';

/** A name-based UUID (version 5 in form, SHA-1 of the text). */
function uuidOf(text: string): string {
  const hash = createHash('sha1').update(text).digest('hex').slice(0, 32);
  const variant = ((Number.parseInt(hash.charAt(16), 16) & 0x3) | 0x8).toString(16);
  return [hash.slice(0, 8), hash.slice(8, 12), `5${hash.slice(13, 16)}`, variant + hash.slice(17, 20), hash.slice(20)].join('-');
}

export function entryOf(resource: FhirResource): BundleEntry {
  const id = uuidOf(JSON.stringify(resource));
  return { fullUrl: `urn:uuid:${id}`, resource: { ...resource, id } };
}

export const referenceTo = (entry: BundleEntry): Reference => ({ reference: entry.fullUrl ?? '' });
