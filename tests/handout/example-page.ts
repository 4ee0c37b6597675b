/** The page of an example visit, made from source. */
import { readFileSync } from 'node:fs';
import { assess } from '../../src/assess.ts';
import { parseSession } from '../../src/intake/index.ts';
import { renderHandoutHtml } from '../../src/report/handout/html.ts';
import type { Paper } from '../../src/report/handout/style.ts';
import type { HandoutView } from '../../src/report/handout/types.ts';
import { type HandoutInput, handoutView } from '../../src/report/handout/view.ts';
import type { Session } from '../../src/session.ts';
import { testEvidence } from '../support/evidence.ts';

const examples = new URL('../../examples/', import.meta.url).pathname;

export function exampleSession(name: string): Session {
  const text = readFileSync(`${examples}${name}.yaml`, 'utf8');
  const { session } = parseSession(text, { file: name, catalogue: testEvidence(), today: '2026-05-20' });
  if (session === null) throw new Error(`${name} is refused`);
  return session;
}

export function viewOf(session: Session, more: Partial<HandoutInput> = {}): HandoutView {
  const evidence = testEvidence();
  const language = evidence.languages.find((each) => each.language === 'en');
  if (language === undefined) throw new Error('English is missing');
  return handoutView({ assessment: assess(session, evidence), session, evidence, language, ...more });
}

export const pageOf = (name: string, paper: Paper = 'a4', more: Partial<HandoutInput> = {}): string =>
  renderHandoutHtml(viewOf(exampleSession(name), more), { paper });

/** Examples that have a page. */
export const EXAMPLES = ['copd-74', 'chair-86', 'steady-66'] as const;
