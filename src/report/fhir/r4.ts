/// <reference path="../../../node_modules/@types/fhir/r4.d.ts" />
/** The shapes of FHIR R4 that the bundle uses. */
export type Bundle = fhir4.Bundle;
export type BundleEntry = fhir4.BundleEntry;
export type CodeableConcept = fhir4.CodeableConcept;
export type Coding = fhir4.Coding;
export type DiagnosticReport = fhir4.DiagnosticReport;
export type FhirResource = fhir4.FhirResource;
export type Goal = fhir4.Goal;
export type Observation = fhir4.Observation;
export type ObservationComponent = fhir4.ObservationComponent;
export type ObservationReferenceRange = fhir4.ObservationReferenceRange;
export type Patient = fhir4.Patient;
export type Provenance = fhir4.Provenance;
export type Quantity = fhir4.Quantity;
export type Reference = fhir4.Reference;
export type RiskAssessment = fhir4.RiskAssessment;
