/**
 * A visit as the program sees it once a file or a CSV row has been read and checked. Absent means "not recorded":
 * it is never "no" and never zero.
 */

export type Answer = 'yes' | 'no' | 'unknown';
export type ClientSex = 'female' | 'male' | 'not recorded';
export type Setting = 'community' | 'residential_care' | 'hospital';
export type Side = 'right' | 'left';

export interface Client {
  readonly ref: string;
  readonly sex: ClientSex;
  /** Completed years on the day of the assessment. */
  readonly age: number;
  /** ISO date; when given, `age` was worked out from it. */
  readonly born?: string;
  readonly setting: Setting;
  /** The file did not say, so `community` was read; the report says so. */
  readonly settingAssumed: boolean;
  readonly heightCm?: number;
  readonly weightKg?: number;
  readonly country?: string;
}

/** How a gait test was walked, when the file says so. */
export interface Course {
  readonly distanceM?: number;
  readonly timeS?: number;
  readonly start?: 'standing' | 'moving';
}

export interface Measured {
  readonly outcome: 'measured';
  /** In the order given; one entry where a single value was given. */
  readonly trials: readonly number[];
  /** The watch was stopped here; a trial that reaches it means "at least". */
  readonly ceiling?: number;
  readonly aid?: string;
  /** Height of the seat of the chair used, in cm. */
  readonly chairCm?: number;
  readonly note?: string;
  readonly course?: Course;
}
export interface NotMeasured {
  readonly outcome: 'unable' | 'declined' | 'unsafe';
  readonly reason: string;
  /** Only with `unsafe`. For balance it counts as unable, else the test was not done but the plan is capped. */
  readonly why?: 'balance' | 'medical' | 'other';
  readonly note?: string;
}
export type Reading = Measured | NotMeasured;

export interface RecordedTest {
  readonly test: string;
  readonly side: Side | null;
  readonly reading: Reading;
}

/** Flat, so that conditions in `norms/` can name a field: `history.feels_unsteady`, `health.oral_steroid.daily_mg`. */
export type FieldValue = Answer | number | string;
export type Fields = Readonly<Record<string, FieldValue>>;

/** A red flag that somebody has dealt with. */
export interface Clearance {
  readonly by: string;
  /** ISO date. */
  readonly date: string;
  /** Id of a red flag, or the last part of a field that it asks about, e.g. `blackout` or `loss_of_consciousness`. */
  readonly for: string;
}

/** The professional's own level of risk. */
export interface RiskOverride {
  /** Id of a level of the pathway that decides. */
  readonly level: string;
  readonly reason: string;
}

/** What the professional sets for one exercise. */
export interface ExerciseOverride {
  /** 0 = the seated variant. */
  readonly level?: number | undefined;
  readonly dose?: string | undefined;
  /** Days a week. */
  readonly days?: number | undefined;
  readonly leaveOut?: boolean | undefined;
  readonly reason?: string | undefined;
}

/** The professional's own plan: what the client can fit in, what goes home, and levels or doses of their own. */
export interface PlanWishes {
  /** Days a week with a session, 1 to 7. */
  readonly days?: number | undefined;
  readonly minutesADay?: number | undefined;
  /** Ids of the exercises that go home. */
  readonly choose?: readonly string[] | undefined;
  readonly exercises?: Readonly<Record<string, ExerciseOverride>> | undefined;
}

export interface Session {
  readonly format: 1;
  readonly client: Client;
  /** ISO date of the visit. */
  readonly assessed: string;
  /** history.*, health.*, vitals.* and later groups; only what was recorded. */
  readonly fields: Fields;
  readonly tests: readonly RecordedTest[];
  /** Unusual but possible values and other remarks from reading the file, shown in the report. */
  readonly notes: readonly string[];
  readonly clearances?: readonly Clearance[];
  readonly riskOverride?: RiskOverride;
  readonly planWishes?: PlanWishes;
  /** What the client wants to be able to do, in the client's words. */
  readonly goals?: readonly string[];
  readonly consentToShare?: Answer;
  /** Who made the assessment. */
  readonly assessor?: string;
}
