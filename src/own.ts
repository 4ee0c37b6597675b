/** The entry that a record itself has under a key; what every object inherits (`constructor`, `toString`) does not count. */
export const own = <Value>(record: Readonly<Record<string, Value>>, key: string): Value | undefined =>
  Object.hasOwn(record, key) ? record[key] : undefined;
