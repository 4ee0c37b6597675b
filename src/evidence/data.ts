/** The whole of `norms/` as one plain value, as the build compiles it, and the index that the pure rooms work on. */
import type { FieldLimits, Source, TestDefinition } from './schema/catalogue.ts';
import type { DerivedFile } from './schema/derived.ts';
import type { DoseRules } from './schema/dose.ts';
import type { Cap, Exercise, General } from './schema/exercise.ts';
import type { HandoutRules, Language } from './schema/handout.ts';
import type { AccuracyCaution, CutPoint, Defaults, FallRate, LikelihoodRatio, MeasurementError } from './schema/numbers.ts';
import type { Factor, Pathway, RedFlag } from './schema/pathway.ts';
import type { TableFile } from './schema/table.ts';

export interface EvidenceData {
  readonly version: string;
  /** SHA-256 over every norms file, so that two reports can be told to rest on the same evidence. */
  readonly digest: string;
  /** Folders beside the built-in one, in order. */
  readonly folders: readonly string[];
  readonly tests: readonly TestDefinition[];
  readonly fields: readonly FieldLimits[];
  readonly sources: Readonly<Record<string, Source>>;
  readonly tables: readonly TableFile[];
  readonly cutPoints: readonly CutPoint[];
  readonly errors: readonly MeasurementError[];
  readonly likelihoodRatios: readonly LikelihoodRatio[];
  readonly fallRates: readonly FallRate[];
  readonly accuracyCautions: readonly AccuracyCaution[];
  readonly defaults: Defaults;
  readonly derived: DerivedFile;
  readonly pathways: readonly Pathway[];
  readonly redFlags: readonly RedFlag[];
  readonly factors: readonly Factor[];
  readonly exercises: readonly Exercise[];
  readonly caps: readonly Cap[];
  readonly general: General;
  readonly dose: DoseRules;
  readonly handout: HandoutRules;
  readonly languages: readonly Language[];
}

export interface Evidence extends EvidenceData {
  readonly testById: ReadonlyMap<string, TestDefinition>;
  readonly tablesByTest: ReadonlyMap<string, readonly TableFile[]>;
  readonly cutPointsByTest: ReadonlyMap<string, readonly CutPoint[]>;
  readonly errorsByTest: ReadonlyMap<string, readonly MeasurementError[]>;
}

function groupByTest<Entry extends { readonly test: string }>(entries: readonly Entry[]): ReadonlyMap<string, readonly Entry[]> {
  const groups = new Map<string, Entry[]>();
  for (const entry of entries) {
    const group = groups.get(entry.test);
    if (group === undefined) groups.set(entry.test, [entry]);
    else group.push(entry);
  }
  return groups;
}

/** Index once, use for every visit or row. */
export function indexEvidence(data: EvidenceData): Evidence {
  return {
    ...data,
    testById: new Map(data.tests.map((test) => [test.id, test])),
    tablesByTest: groupByTest(data.tables),
    cutPointsByTest: groupByTest(data.cutPoints),
    errorsByTest: groupByTest(data.errors),
  };
}
