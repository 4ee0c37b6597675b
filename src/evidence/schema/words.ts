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

/** Of red flags, from most to least urgent. */
export const TIERS = ['emergency', 'same_day', 'clear_first'] as const;

/** In the order of a session. */
export const PURPOSES = ['warm_up', 'strength', 'standing_balance', 'moving_balance', 'stretch'] as const;

export const TRIALS_RULES = ['best', 'mean', 'first', 'unknown'] as const;

/** Drawings of standing exercises. */
export const FIGURES = [
  'stand',
  'ankle_circle',
  'march',
  'side_step',
  'step_up',
  'squat',
  'sit_to_stand',
  'heel_raise',
  'toe_raise',
  'weight_shift',
  'tandem_stand',
  'one_leg',
  'tandem_walk',
  'step_out',
  'thigh_stretch',
] as const;

/** Drawings of seated variants: what the legs or arms do. */
export const SEATED_FIGURES = [
  'sit',
  'foot_lift',
  'circle',
  'march',
  'side_tap',
  'side_step_up',
  'press',
  'knee_straight',
  'heels_up',
  'toes_up',
  'reach',
  'heel_to_toe',
  'front_tap',
  'foot_back',
] as const;
