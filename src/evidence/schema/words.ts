/** The closed lists of words that both the schemas and the rooms use; apart from the schemas so that a run does not load the validator. */

export const STATUSES = ['full-text', 'computed', 'abstract', 'secondary', 'memory', 'common-practice'] as const;

/** From most to least support. Caps compare positions in this list. */
export const SUPPORTS = [
  'seated',
  'both_hands_firm',
  'one_hand_firm',
  'light_touch',
  'fingertip',
  'hands_ready',
  'hands_free',
] as const;

/** From least to most. */
export const SUPERVISIONS = ['on_own', 'someone_nearby', 'someone_beside', 'professional'] as const;

/** In the order of a session. */
export const PURPOSES = ['warm_up', 'strength', 'standing_balance', 'moving_balance', 'stretch'] as const;

export const TRIALS_RULES = ['best', 'mean', 'first', 'unknown'] as const;
