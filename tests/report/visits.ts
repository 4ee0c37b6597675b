/** The examples as scored visits, and one whose every free text is hostile. */
import { assess } from '../../src/assess.ts';
import { parseSession } from '../../src/intake/index.ts';
import type { People } from '../../src/report/letter/types.ts';
import type { Visit } from '../../src/report/view/visit.ts';
import { testEvidence } from '../support/evidence.ts';
import { exampleFiles } from '../support/run.ts';

export const EXAMPLES = ['copd-74', 'chair-86', 'steady-66'] as const;

export function visitOf(text: string): Visit {
  const { session, problems } = parseSession(text, { file: 'visit', catalogue: testEvidence(), today: '2026-05-20' });
  if (session === null) throw new Error(problems.map((problem) => problem.message).join('\n'));
  return { session, assessment: assess(session, testEvidence()) };
}

export const example = (name: (typeof EXAMPLES)[number]): Visit => visitOf(exampleFiles()[`examples/${name}.yaml`] ?? '');

/** Nothing answered: the level is open, everything is still to be asked. */
export const EMPTY = 'format: 1\nclient: {ref: A-1, sex: male, age: 70}\nassessed: 2026-05-11\n';
/** A fall with a blackout that nobody has looked into. */
export const URGENT =
  'format: 1\nclient: {ref: B-1, sex: female, age: 80}\nassessed: 2026-05-11\nhistory: {falls_past_year: 1, loss_of_consciousness: yes}\n';

/** Markup, formulas, template slots, terminal escapes, reading direction, and a word without end. */
export const HOSTILE = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  "' onmouseover='alert(1)",
  '</style><style>*{display:none}',
  '&lt;b&gt; &amp; ]]>',
  '[click](javascript:alert(1)) ![x](http://example.invalid/x.png)',
  '# heading | cell | `code` **bold** ~~gone~~ $x^2$ @cite',
  '- item',
  '1. first',
  '=HYPERLINK("http://example.invalid")',
  '{{ client }} {% raw %} <%= 1 %>',
  '\u001b[31mred\u001b[0m\u009b2J',
  'a\u202egnp.exe\u2066x\u2069\u200b',
  'x'.repeat(3000),
];

/** A visit whose free texts are all this text. */
export function hostileVisit(text: string): Visit {
  const base = example('copd-74');
  const session = {
    ...base.session,
    client: { ...base.session.client, ref: text },
    goals: [text],
    assessor: text,
    notes: [text],
    tests: base.session.tests.map((test) =>
      test.reading.outcome === 'measured'
        ? { ...test, reading: { ...test.reading, note: text, aid: text } }
        : { ...test, reading: { ...test.reading, reason: text } },
    ),
    riskOverride: { level: 'high', reason: text },
    clearances: [{ by: text, date: '2026-05-11', for: 'blackout' }],
  };
  return { session, assessment: assess(session, testEvidence()) };
}

export const peopleNamed = (text: string): People => ({
  client: { name: text, born: '1951-02-03', address: [text] },
  to: { name: text, address: [text] },
  from: { name: text, role: text, registration: text, telephone: text },
  copies: [text],
});

export const nobody: People = {
  client: { name: null, born: null, address: [] },
  to: { name: null, address: [] },
  from: { name: null, role: null, registration: null, telephone: null },
  copies: [],
};
