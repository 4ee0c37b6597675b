/**
 * The two pathways written a second time, as plain if/else from the text of the guidelines and on complete records, so that
 * the engine and its data are checked against something that shares no code with them.
 */
export interface Visit {
  setting: 'community' | 'residential_care' | 'hospital';
  falls: number;
  unsteady: boolean;
  worried: boolean;
  injury: boolean;
  longLie: boolean;
  blackout: boolean;
  frail: boolean;
  gaitImpaired: boolean;
}

/** World Falls Guidelines 2022. */
export function worldLevel(visit: Visit): 'low' | 'intermediate' | 'high' {
  // key messages: everyone in care homes and hospitals is at high risk
  if (visit.setting !== 'community') return 'high';
  const fell = visit.falls > 0 || visit.injury || visit.longLie;
  // three key questions, all no: low
  if (!fell && !visit.unsteady && !visit.worried) return 'low';
  // severity
  if (fell) {
    if (visit.injury) return 'high';
    if (visit.longLie) return 'high';
    if (visit.blackout) return 'high';
    if (visit.falls > 1) return 'high';
  }
  if (visit.frail) return 'high';
  // gait and balance
  return visit.gaitImpaired ? 'intermediate' : 'low';
}

export interface Screen {
  falls: number;
  injury: boolean;
  longLie: boolean;
  unsteady: boolean;
  worried: boolean;
  /** Score of the 12-question form; null where it was not used. */
  form: number | null;
}

/** CDC 2019: four points or more on the form, or any yes to the three key questions. */
export function cdcLevel(screen: Screen): 'at_risk' | 'not_at_risk' {
  if (screen.form !== null && screen.form >= 4) return 'at_risk';
  if (screen.falls > 0 || screen.injury || screen.longLie) return 'at_risk';
  if (screen.unsteady || screen.worried) return 'at_risk';
  return 'not_at_risk';
}
