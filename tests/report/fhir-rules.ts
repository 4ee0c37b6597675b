/**
 * The offline checks of a bundle: a validator of shapes, the invariants that it misses (as FHIRPath), and rules of our own.
 * None of it replaces the official validator with terminology.
 */
import ucumPackage from '@lhncbc/ucum-lhc';
import { Fhir } from 'fhir/fhir.js';
import fhirpath from 'fhirpath';
import r4 from 'fhirpath/fhir-context/r4';
import type { Bundle, CodeableConcept, Observation } from '../../src/report/fhir/r4.ts';

const shapes = new Fhir();
const ucum = ucumPackage.UcumLhcUtils.getInstance();

/** Codes read on their own pages at loinc.org and found to be the same test. */
const LOINC_SOLID = new Set([
  '89423-8',
  '66247-8',
  '93125-3',
  '66569-5',
  '83174-3',
  '83173-5',
  '75856-5',
  '2708-6',
  '82289-0',
  '83172-7',
  '66255-1',
  '66254-4',
  '66253-6',
  '62825-5',
]);
const INTERPRETATIONS = new Set(['N', 'H', 'L', 'A', '>', '<', 'B', 'W', 'U', 'D', 'IND', 'POS', 'NEG']);
const EXCLUSIVE = [
  ['N', 'H', 'L', 'A'],
  ['B', 'W'],
  ['U', 'D'],
];

const INVARIANTS: readonly (readonly [string, string])[] = [
  ['obs-3', 'Observation.referenceRange.all(low.exists() or high.exists() or text.exists())'],
  ['obs-6', 'Observation.all(dataAbsentReason.empty() or value.empty())'],
  ['obs-7', 'Observation.all(value.empty() or component.code.where(coding.intersect(%resource.code.coding).exists()).empty())'],
  [
    'ras-1',
    "RiskAssessment.prediction.probability.ofType(Range).all((low.empty() or low.code = '%') and (high.empty() or high.code = '%'))",
  ],
  ['ras-2', 'RiskAssessment.prediction.probability.ofType(decimal).all($this <= 100)'],
];

/** Walks every object of a resource. */
function* objectsIn(value: unknown): Generator<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null) return;
  if (!Array.isArray(value)) yield value as Record<string, unknown>;
  for (const inner of Object.values(value)) yield* objectsIn(inner);
}

const codesOf = (concepts: readonly CodeableConcept[] | undefined): string[] =>
  (concepts ?? []).flatMap((concept) => concept.coding ?? []).map((coding) => coding.code ?? '');

function oneValue(observation: Observation): string[] {
  const carriers = [observation, ...(observation.component ?? [])];
  return carriers.flatMap((carrier) => {
    const values = Object.keys(carrier).filter((key) => key.startsWith('value'));
    if (values.length > 1) return [`one-value: ${values.join(', ')}`];
    const empty = values.length === 0 && carrier.dataAbsentReason === undefined;
    const grouped = 'component' in carrier && carrier.component !== undefined;
    return empty && !grouped ? ['one-value: no value, no reason why'] : [];
  });
}

function interpretations(observation: Observation): string[] {
  return [observation, ...(observation.component ?? [])].flatMap((carrier) => {
    const codes = codesOf(carrier.interpretation);
    return [
      ...codes.filter((code) => !INTERPRETATIONS.has(code)).map((code) => `interpretation: ${code}`),
      ...EXCLUSIVE.filter((group) => codes.filter((code) => group.includes(code)).length > 1).map(
        (group) => `interpretation: more than one of ${group.join(', ')}`,
      ),
    ];
  });
}

function units(observation: Observation): string[] {
  const quantities = [...objectsIn(observation)].filter((each) => each.system === 'http://unitsofmeasure.org');
  const wrong = quantities.filter((each) => ucum.validateUnitString(String(each.code)).status !== 'valid');
  const unlike = (observation.referenceRange ?? []).flatMap((range) =>
    [range.low, range.high].filter(
      (end) => end !== undefined && observation.valueQuantity !== undefined && end.code !== observation.valueQuantity.code,
    ),
  );
  const bare = [...objectsIn(observation)].filter((each) => typeof each.value === 'number' && each.code === undefined);
  return [
    ...wrong.map((each) => `unit: ${String(each.code)}`),
    ...unlike.map((end) => `unit of a range: ${end?.code ?? ''}`),
    ...bare.map(() => 'unit: none'),
  ];
}

function loincs(resource: unknown): string[] {
  return [...objectsIn(resource)]
    .filter((each) => each.system === 'http://loinc.org' && !LOINC_SOLID.has(String(each.code)))
    .map((each) => `LOINC: ${String(each.code)}`);
}

/** Resources of one type. */
export const resourcesOf = <Type>(bundle: Bundle, type: string): Type[] =>
  (bundle.entry ?? []).flatMap(({ resource }) => (resource?.resourceType === type ? [resource as unknown as Type] : []));

/** Everything that is wrong with a bundle; empty where nothing is. */
export function faultsOf(bundle: Bundle): string[] {
  const shape = shapes.validate(bundle, { errorOnUnexpected: true });
  const errors = (shape.messages ?? []).filter((message) => message.severity === 'error' || message.severity === 'fatal');
  const resources = (bundle.entry ?? []).flatMap((entry) => entry.resource ?? []);
  return [
    ...errors.map((message) => `shape: ${message.location ?? ''} ${message.message ?? ''}`),
    ...resources.flatMap((resource) => {
      const broken = INVARIANTS.filter(([, rule]) => rule.startsWith(resource.resourceType)).filter(([, rule]) => {
        const answer: unknown = fhirpath.evaluate(resource, rule, { resource }, r4);
        return Array.isArray(answer) && answer.includes(false);
      });
      return broken.map(([key]) => key);
    }),
    ...resourcesOf<Observation>(bundle, 'Observation').flatMap((each) => [
      ...oneValue(each),
      ...interpretations(each),
      ...units(each),
    ]),
    ...resources.flatMap(loincs),
  ];
}
