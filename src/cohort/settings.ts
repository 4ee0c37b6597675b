/** How the cells of this cohort are to be read: what a map file states, with the defaults where it is silent. */

export const OUTCOME_WORDS = ['not_recorded', 'unable', 'declined', 'unsafe_balance', 'unsafe_medical'] as const;
export type OutcomeWord = (typeof OUTCOME_WORDS)[number];

/** What the map says of one column. */
export interface ColumnRule {
  /** Name of a target; null where the column is passed on without being read. */
  readonly to: string | null;
  /** Cell as typed -> the word or number that it stands for. */
  readonly values?: Readonly<Record<string, string>>;
  /** `down`: a decimal age becomes completed years. */
  readonly whole?: 'down';
  /** The number of the cell is multiplied by this, e.g. 0.01 for cm/s. */
  readonly multiply?: number;
  /** The watch was stopped here, in seconds. */
  readonly ceiling?: number;
  /** Course of a walk, in metres. */
  readonly distance?: number;
  readonly start?: 'standing' | 'moving';
  /** The cells of a walk are times in seconds over `distance`, not speeds. */
  readonly as?: 'time';
  /** Height of the seat in cm. */
  readonly chair_cm?: number;
}

export interface ColumnSettings {
  readonly decimal: 'point' | 'comma';
  /** Order of day, month and year in dates that are not written 2026-05-11. */
  readonly dates: 'ymd' | 'dmy' | 'mdy';
  /** Cells that stand for an outcome, in lower case. */
  readonly words: Readonly<Record<OutcomeWord, readonly string[]>>;
  readonly columns: Readonly<Record<string, ColumnRule>>;
}

/** Not recorded says nothing about the client; `unable` is the worst result, so only plain words of it are taken. */
export const DEFAULT_SETTINGS: ColumnSettings = {
  decimal: 'point',
  dates: 'ymd',
  words: {
    not_recorded: [
      '',
      'n/a',
      'na',
      'n.a.',
      'nd',
      'n/d',
      '-',
      '--',
      '.',
      'missing',
      'not done',
      'not recorded',
      'not tested',
      'null',
    ],
    unable: ['unable', 'cannot', 'could not', 'failed', 'fail'],
    declined: ['declined', 'refused'],
    unsafe_balance: [],
    unsafe_medical: [],
  },
  columns: {},
};
