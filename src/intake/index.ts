/** The intake room: files and rows -> Session, with every problem placed. */

export { ANSWERS, CLIENT_KEYS, FIELD_GROUPS, type Key, type Keys, type Leaf, SEVERAL_FALLS } from '../session-keys.ts';
export { type BuildOptions, type Built, buildSession, type Catalogue } from './build.ts';
export { completedYears, parseDate } from './dates.ts';
export { checkLimits, type Limited, type LimitVerdict } from './limits.ts';
export { nearest, normalised } from './near.ts';
export { type Explanation, explainNumber, isPlainNumber } from './numbers.ts';
export { type ParsedSession, type ParseOptions, parseSession } from './parse-session.ts';
export {
  type Finding,
  formatProblem,
  isRefusal,
  type Path,
  PROBLEM_CODES,
  type Problem,
  type ProblemCode,
  type Severity,
  severityOf,
} from './problems.ts';
