/**
 * Codes and systems of the bundle. LOINC codes are given only where the test is the same test, read on the code's own page;
 * every Observation also has a local code, so that a receiver can always tell the protocol.
 * LOINC is copyright Regenstrief Institute, Inc. and the LOINC Committee, free under the licence at loinc.org/license.
 */
import type { CodeableConcept, Coding } from './r4.ts';

const LOINC = 'http://loinc.org';
export const UCUM = 'http://unitsofmeasure.org';
const INTERPRETATION = 'http://terminology.hl7.org/CodeSystem/v3-ObservationInterpretation';
const CATEGORY = 'http://terminology.hl7.org/CodeSystem/observation-category';
const ABSENT = 'http://terminology.hl7.org/CodeSystem/data-absent-reason';
const RISK = 'http://terminology.hl7.org/CodeSystem/risk-probability';
/** This project's own code system and name space of pseudonyms: fixed for ever. */
const LOCAL = 'urn:uuid:0c7f1f5e-6d0b-5b53-9d0e-3b1f2a7c4e61';
export const PSEUDONYMS = 'urn:uuid:4b0d9a1c-2f7e-5c38-8a15-6e9d3c0b7f24';

export const LOINC_NOTICE =
  'Codes and names from LOINC are copyright Regenstrief Institute, Inc. and the LOINC Committee and are used under the licence at loinc.org/license.';

const LOINC_OF: Readonly<Record<string, Coding>> = {
  timed_up_and_go: {
    system: LOINC,
    code: '89423-8',
    display: 'Time to rise from chair, walk 10 feet and back, and return to sitting [TUG]',
  },
  thirty_second_chair_stand: { system: LOINC, code: '66247-8', display: 'Sit to stand frequency in 30 seconds' },
  'grip_strength right': { system: LOINC, code: '83174-3' },
  'grip_strength left': { system: LOINC, code: '83173-5' },
  'history.falls_past_year': { system: LOINC, code: '75856-5', display: 'Number of falls in the past 12 months [Reported]' },
  'vitals.spo2_rest': { system: LOINC, code: '2708-6', display: 'Oxygen saturation in arterial blood' },
  single_trial_leg_stance: {
    system: LOINC,
    code: '66569-5',
    display: 'Time participant holds position during first one leg stand',
  },
};

const kebab = (id: string): string => id.toLowerCase().replace(/[^a-z0-9]+/g, '-');

/** The local code first, since only it tells the protocol; a LOINC code beside it where there is one. */
export function codeOf(id: string, text: string, loincKey = id): CodeableConcept {
  const loinc = LOINC_OF[loincKey];
  return { coding: [{ system: LOCAL, code: kebab(id), display: text }, ...(loinc === undefined ? [] : [loinc])], text };
}

export const localCode = (id: string, text: string): CodeableConcept => ({
  coding: [{ system: LOCAL, code: kebab(id), display: text }],
  text,
});

export const categoryOf = (code: 'exam' | 'survey' | 'vital-signs'): CodeableConcept => ({
  coding: [{ system: CATEGORY, code }],
});

export const absentBecause = (code: 'asked-declined' | 'not-performed' | 'asked-unknown' | 'unknown'): CodeableConcept => ({
  coding: [{ system: ABSENT, code }],
});

/** H and L say where the number lies, not whether that is good; the words do. */
export type InterpretationCode = 'N' | 'H' | 'L' | '>' | 'POS' | 'NEG' | 'IND';

export const interpretationOf = (code: InterpretationCode, text: string): CodeableConcept => ({
  coding: [{ system: INTERPRETATION, code }],
  text,
});

const RISK_CODES: Readonly<Record<string, string>> = { low: 'low', intermediate: 'moderate', high: 'high' };

/** The guideline's own word stays in the text. */
export function qualitativeRisk(level: string, label: string): CodeableConcept {
  const code = RISK_CODES[level];
  return { ...(code === undefined ? {} : { coding: [{ system: RISK, code }] }), text: label };
}

const UCUM_OF: Readonly<Record<string, string>> = {
  years: 'a',
  months: 'mo',
  'mg a day': 'mg/d',
  mmHg: 'mm[Hg]',
  'beats a minute': '/min',
  'l/min': 'L/min',
  '%': '%',
  cm: 'cm',
  kg: 'kg',
  points: '{score}',
};

/** The UCUM code of what people read after a number; a bare count where it is none of these. */
export const ucumOf = (unitText: string): string => UCUM_OF[unitText] ?? '{#}';
