/** The words in which ids of the contract are read by people. */
import type { Assessment, Band, Based, RedFlagResult, Standing } from '../../assessment.ts';

/** An id that has no words of its own: underscores become blanks. */
export const plainId = (id: string): string => id.replaceAll('_', ' ');

const from = (words: Readonly<Record<string, string>>, id: string): string => words[id] ?? plainId(id);

const STATUS_WORDS: Readonly<Record<Based['basis'], string | null>> = {
  'full-text': null,
  computed: 'computed from public survey data',
  abstract: 'read in the abstract',
  secondary: 'read in another publication that cites it',
  memory: 'recalled, not checked against the paper',
  'common-practice': 'common practice',
  'own-rule': "this program's own rule",
};

/** How a statement was read, in words; null for full text, which needs no mark. */
export const statusWords = (status: Based['basis']): string | null => STATUS_WORDS[status];

const SHORT_STATUS: Readonly<Record<Based['basis'], string | null>> = {
  'full-text': null,
  computed: 'computed',
  abstract: 'abstract',
  secondary: 'second-hand',
  memory: 'recalled',
  'common-practice': 'common practice',
  'own-rule': 'own rule',
};

/** The same in a word or two, for reports that explain the words once. */
export const shortStatusWords = (status: Based['basis']): string | null => SHORT_STATUS[status];
export const SHORT_STATUS_LEGEND =
  'A number alone: the paper itself was read; second-hand: read in a publication that cites it; recalled: not compared with the paper yet; computed: from public survey data.';

/** "usual" is never "normal". */
export const STANDING_WORDS: Readonly<Record<Standing, string>> = {
  well_below: 'well below usual',
  below: 'below usual',
  expected: 'usual',
  above: 'better than usual',
};

const TIERS: Readonly<Record<RedFlagResult['tier'], string>> = {
  emergency: 'Emergency, act now',
  same_day: 'Doctor today',
  clear_first: 'Clear with a doctor before exercise',
};
export const tierWords = (tier: RedFlagResult['tier']): string => TIERS[tier];

const LUNGS: Readonly<Record<string, string>> = {
  none: 'no lung condition',
  copd: 'COPD',
  interstitial: 'interstitial lung disease',
  other: 'another lung condition',
};
const SETTINGS: Readonly<Record<string, string>> = {
  community: 'lives in the community',
  residential_care: 'lives in residential care',
  hospital: 'in hospital',
};

/** "female, 74 years, COPD, lives in the community". */
export function clientWords(client: Assessment['client']): string {
  const sex = client.sex === 'not recorded' ? 'sex not recorded' : client.sex;
  const lungs = client.lung_condition === null ? 'lung condition not recorded' : from(LUNGS, client.lung_condition);
  const setting = `${from(SETTINGS, client.setting)}${client.setting_assumed ? ' (assumed: not recorded)' : ''}`;
  return [sex, `${client.age} years`, lungs, setting].join(', ');
}

export const levelWords = plainId;

/** A level that is settled by its label, else the bounds. */
export const boundsWords = (atLeast: string, atMost: string): string =>
  `cannot be settled yet: at least ${levelWords(atLeast)}, at most ${levelWords(atMost)}`;

const PURPOSES: Readonly<Record<string, string>> = {
  warm_up: 'Warm-up',
  strength: 'Strength',
  standing_balance: 'Standing balance',
  moving_balance: 'Moving balance',
  stretch: 'Stretch',
};
/** The order of a session. */
export const PURPOSE_ORDER: readonly string[] = Object.keys(PURPOSES);
export const purposeWords = (purpose: string): string => from(PURPOSES, purpose);

const SUPERVISION: Readonly<Record<string, string>> = {
  on_own: 'may be done alone',
  someone_nearby: 'with somebody nearby',
  someone_beside: 'with somebody beside the client',
  professional: 'with the professional present',
};
export const supervisionWords = (id: string): string => from(SUPERVISION, id);

const SUPPORTS: Readonly<Record<string, string>> = {
  seated: 'seated',
  both_hands_firm: 'both hands holding firmly',
  one_hand_firm: 'one hand holding firmly',
  light_touch: 'light touch',
  fingertip: 'one fingertip',
  hands_ready: 'hands held ready over the support',
  hands_free: 'hands free, support within reach',
};
export const supportWords = (id: string): string => from(SUPPORTS, id);

const SURFACES: Readonly<Record<string, string>> = { firm: 'firm floor', foam: 'foam or cushion', chair: 'on a chair' };
export const surfaceWords = (id: string): string => from(SURFACES, id);

function ageWords({ age_min: low, age_max: high }: Band): string {
  if (low === null && high === null) return 'all ages';
  if (high === null) return `${low} and over`;
  if (low === null) return `up to ${high}`;
  return low === high ? `${low}` : `${low}-${high}`;
}

const SHOWN_IN_FULL = new Set(['sex', 'age_min', 'age_max', 'height_min_cm', 'height_max_cm', 'setting', 'side']);

function heightWords(band: Band): string[] {
  const low = band.height_min_cm ?? null;
  const high = band.height_max_cm ?? null;
  if (low === null && high === null) return [];
  if (high === null) return [`height ${low} cm and over`];
  return [low === null ? `height up to ${high} cm` : `height ${low}-${high} cm`];
}

/** "women 75-79, right side": who the row of a table is about. */
export function bandWords(band: Band): string {
  const who = band.sex === 'female' ? 'women' : band.sex === 'male' ? 'men' : 'both sexes';
  const side = typeof band.side === 'string' ? [`${plainId(band.side)} side`] : [];
  const setting = typeof band.setting === 'string' ? [plainId(band.setting)] : [];
  const others = Object.entries(band).flatMap(([key, value]) =>
    SHOWN_IN_FULL.has(key) || value === null || value === undefined ? [] : [String(value)],
  );
  return [`${who} ${ageWords(band)}`, ...side, ...setting, ...heightWords(band), ...others].join(', ');
}

/** What "usual" is usual for: a row of both sexes together may not claim to compare by sex. */
export function peersWords(band: Band): string {
  const byAge = band.age_min !== null || band.age_max !== null;
  if (band.sex === 'all') return byAge ? 'age' : 'adults of all ages measured';
  return byAge ? 'age and sex' : 'sex, all ages together';
}
