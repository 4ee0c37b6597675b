/** The parts of the evidence that only the plan and the page for the client need, as empty as they can be. */
import type { EvidenceData } from '../../src/evidence/data.ts';

const cited = { source: 'invented', location: 'x', status: 'full-text' } as const;

export const noPlan: Pick<EvidenceData, 'dose' | 'handout' | 'languages'> = {
  dose: {
    week: {
      days: 3,
      most_exercises: 9,
      target: { minutes: 100, text: 'x', basis: cited },
      least_days: { days: 1, text: 'x', basis: cited },
      least_strength_days: { days: 1, text: 'x', basis: cited },
      rest_day_between: [],
      challenge: { criteria_needed: 2, little_support_from: 'light_touch', basis: cited },
    },
    adaptations: [],
    not_beyond_hands_free_alone: [],
    between_visits: { sessions_before_up: 1, basis: cited },
  },
  handout: { sections: [] },
  languages: [],
};
