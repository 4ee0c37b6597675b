/** Names and addresses from a file of their own (YAML): checked key by key, so that a mistyped key does not lose a name. */
import { z } from 'zod';
import { plainYaml } from '../../evidence/plain-yaml.ts';
import type { People } from './types.ts';

const Line = z.string().trim().min(1).max(200);
const Lines = z.union([Line.transform((line) => [line]), z.array(Line).max(8)]).default([]);
const OrNone = Line.nullable().default(null);
/** A number without quotes is meant as it is typed. */
const NumberOrLine = z
  .union([Line, z.number().transform(String)])
  .nullable()
  .default(null);

const PeopleFile = z.strictObject({
  client: z.strictObject({ name: OrNone, born: z.iso.date().nullable().default(null), address: Lines }).prefault({}),
  to: z.strictObject({ name: OrNone, address: Lines }).prefault({}),
  from: z
    .strictObject({
      name: OrNone,
      role: OrNone,
      registration: NumberOrLine,
      telephone: NumberOrLine,
    })
    .prefault({}),
  copies: Lines,
});

export const NOBODY: People = PeopleFile.parse({});

/** @throws Error with a sentence on each fault. */
export function parsePeople(text: string): People {
  const { faults, value } = plainYaml(text);
  const [broken] = faults;
  if (broken !== undefined) throw new Error(`cannot be read as YAML: ${broken.message}`);
  const found = PeopleFile.safeParse(value ?? {});
  if (found.success) return found.data;
  const wrong = found.error.issues.map((issue) => {
    const place = issue.path.join('.');
    return issue.code === 'unrecognized_keys'
      ? `unknown key ${issue.keys.join(', ')}${place === '' ? '' : ` in ${place}`}; known: client {name, born, address}, to {name, address}, from {name, role, registration, telephone}, copies`
      : `${place}: ${issue.message}`;
  });
  throw new Error(wrong.join('; '));
}
