/**
 * FHIR R4 (4.0.1): one collection with a pseudonymous Patient, an Observation a result and answer, the guideline's level, the
 * client's goals and a DiagnosticReport that lists them. Who performed it is left to the clinic. No profile is claimed.
 */
import type { Assessment, TestResult } from '../../assessment.ts';
import type { Evidence } from '../../evidence/data.ts';
import { escaped } from '../html/markup.ts';
import { escapedJson } from '../json.ts';
import { dateWords } from '../view/numbers.ts';
import { type Picture, picturesOf } from '../view/pictures.ts';
import { PURPOSE } from '../view/purpose.ts';
import { sanitised, sanitisedDeep } from '../view/sanitise.ts';
import { labelOf, resultWords } from '../view/tests.ts';
import type { Visit } from '../view/visit.ts';
import { answerObservations } from './answers.ts';
import { LOINC_NOTICE, localCode, PSEUDONYMS } from './codes.ts';
import { entryOf, referenceTo } from './identity.ts';
import { type About, testObservation } from './observations.ts';
import type { Bundle, BundleEntry, DiagnosticReport, Goal, Patient, Provenance, Reference } from './r4.ts';
import { riskResource } from './risk.ts';

const patient = ({ client }: Assessment): Patient => ({
  resourceType: 'Patient',
  identifier: [{ system: PSEUDONYMS, value: client.ref }],
  gender: client.sex === 'female' || client.sex === 'male' ? client.sex : 'unknown',
});

const goal = (text: string, { subject }: About): Goal => ({
  resourceType: 'Goal',
  lifecycleStatus: 'proposed',
  description: { text },
  subject,
});

/** What the record says of itself, for people. */
function narrative(assessment: Assessment): DiagnosticReport['text'] {
  const lines = [
    `Balance and falls assessment of ${dateWords(assessment.assessed)}.`,
    PURPOSE,
    LOINC_NOTICE,
    `Made by ${assessment.tool.name} ${assessment.tool.version}, evidence ${assessment.evidence.version}.`,
  ];
  const paragraphs = lines.map((line) => `<p>${escaped(line)}</p>`).join('');
  return { status: 'additional', div: `<div xmlns="http://www.w3.org/1999/xhtml">${paragraphs}</div>` };
}

function conclusion({ risk, tests }: Assessment): string {
  const level = (risk.override ?? risk).label;
  const results = tests.map((test) => `${labelOf(test)} ${resultWords(test)}`).join('; ');
  return `${risk.name}: ${level}. ${results}`;
}

function provenance(assessment: Assessment, target: BundleEntry): Provenance {
  const { tool, evidence, assessed } = assessment;
  return {
    resourceType: 'Provenance',
    target: [referenceTo(target)],
    recorded: `${assessed}T00:00:00Z`,
    agent: [{ who: { display: `${tool.name} ${tool.version}, evidence ${evidence.version} (${evidence.digest})` } }],
  };
}

/** In the order of the report; a derived result names those it came from, as far as they are in the bundle. */
function testEntries({ tests }: Assessment, pictures: readonly Picture[], about: About): BundleEntry[] {
  const made = new Map<TestResult, BundleEntry>();
  const add = (test: TestResult, derivedFrom: readonly Reference[]): void => {
    const observation = testObservation(
      test,
      pictures.find((picture) => picture.test === test.test),
      about,
    );
    made.set(test, entryOf(derivedFrom.length === 0 ? observation : { ...observation, derivedFrom: [...derivedFrom] }));
  };
  for (const test of tests.filter((each) => each.derived_from.length === 0)) add(test, []);
  for (const test of tests.filter((each) => each.derived_from.length > 0)) {
    const origins = new Set(test.derived_from.map((origin) => origin.test));
    add(
      test,
      [...made].filter(([each]) => origins.has(each.test)).map(([, entry]) => referenceTo(entry)),
    );
  }
  return tests.flatMap((test) => made.get(test) ?? []);
}

function entriesOf({ assessment: given, session }: Visit, evidence: Evidence): BundleEntry[] {
  const assessment = sanitised(given);
  const subject = entryOf(patient(assessment));
  const about: About = { subject: referenceTo(subject), date: assessment.assessed };
  const tests = testEntries(assessment, picturesOf(assessment, session.client, evidence), about);
  const answers = answerObservations(sanitisedDeep(assessment.recorded ?? {}), evidence, about).map(entryOf);
  const risk = entryOf(riskResource(assessment, [...answers, ...tests].map(referenceTo), about));
  const goals = assessment.goals.map((text) => entryOf(goal(text, about)));
  const report = entryOf({
    resourceType: 'DiagnosticReport',
    text: narrative(assessment),
    status: 'final',
    code: localCode('balance-and-falls-assessment', 'Balance and falls assessment'),
    subject: about.subject,
    effectiveDateTime: about.date,
    result: [...tests, ...answers].map(referenceTo),
    conclusion: conclusion(assessment),
  });
  return [subject, report, ...tests, ...answers, risk, ...goals, entryOf(provenance(assessment, report))];
}

/** One collection, also for several visits; the same client stands in it once. Ends with a line feed. */
export function renderFhir(visits: readonly Visit[], evidence: Evidence): string {
  const entries = new Map(visits.flatMap((visit) => entriesOf(visit, evidence)).map((entry) => [entry.fullUrl, entry]));
  const bundle: Bundle = { resourceType: 'Bundle', type: 'collection', entry: [...entries.values()] };
  return escapedJson(bundle);
}
