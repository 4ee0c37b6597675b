/** `footing handout` as a person calls it. */
import { describe, expect, test } from 'vitest';
import { exampleFiles, footing } from '../support/run.ts';

const visit = (more: string): Record<string, string> => ({
  'visit.yaml': `format: 1
client: {ref: T-9, sex: female, age: 74, setting: community}
assessed: 2026-05-11
assessor: A. Physio
history: {falls_past_year: 0, feels_unsteady: no, worries_about_falling: no}
health: {clinical_frailty_scale: 2}
tests: {timed_up_and_go: 9, single_leg_stance_eyes_open: {right: 12, left: 12}}
${more}
`,
});

describe('the page', () => {
  test('HTML on standard output by default, a file with -o', async () => {
    const shown = await footing(['handout', 'examples/copd-74.yaml']);
    expect(shown.code).toBe(0);
    expect(shown.stdout).toMatch(/^<!DOCTYPE html>/);
    const written = await footing(['handout', 'examples/copd-74.yaml', '-o', 'page.html', '--paper', 'letter']);
    expect(written.stderr).toContain('wrote page.html');
    expect(written.files['page.html']).toContain('size: letter');
  });

  test('text', async () => {
    const { stdout, code } = await footing(['handout', 'examples/copd-74.yaml', '--format', 'text', '--emergency-number', '555']);
    expect(code).toBe(0);
    expect(stdout).toContain('CALL 555');
  });

  test('docx needs a file', async () => {
    const refused = await footing(['handout', 'examples/copd-74.yaml', '--format', 'docx']);
    expect(refused.code).toBe(2);
    expect(refused.stderr).toContain('name a file with -o');
    const written = await footing(['handout', 'examples/copd-74.yaml', '--format', 'docx', '-o', 'page.docx']);
    expect(written.code).toBe(0);
    expect(written.files['page.docx']?.startsWith('PK')).toBe(true);
  });

  test('the emergency number and the letterhead from the settings', async () => {
    const files = { ...exampleFiles(), '.footing.yaml': 'emergency_number: "555"\nletterhead: [Invented Clinic]\n' };
    const { stdout } = await footing(['handout', 'examples/copd-74.yaml', '--format', 'text'], { files });
    expect(stdout).toContain('CALL 555');
    expect(stdout).toMatch(/^Invented Clinic\n/);
  });
});

describe('which exercises', () => {
  test('those named, in the order of a session', async () => {
    const { stdout } = await footing([
      'handout',
      'examples/copd-74.yaml',
      '--format',
      'text',
      '--exercises',
      'tandem-standing,sit_to_stand',
    ]);
    expect(stdout.match(/^\d+\. .*Tried/gm)?.map((line) => line.slice(0, 9))).toEqual(['1. Sit-to', '2. Heel-t']);
  });

  test('an unknown one stops the run with the nearest', async () => {
    const { code, stderr } = await footing(['handout', 'examples/copd-74.yaml', '--exercises', 'squatt']);
    expect(code).toBe(2);
    expect(stderr).toContain('write squat instead');
  });

  test('those chosen in the file, a level set there and one left out', async () => {
    const files = visit(
      'plan: {choose: [squat, toe_raises, single_leg_standing], exercises: {squat: {leave_out: yes}, single_leg_standing: {level: 8}}}',
    );
    const { stdout, stderr, code } = await footing(['handout', 'visit.yaml', '--format', 'text'], { files });
    expect(code).toBe(0);
    expect(stdout).not.toContain('Squat');
    expect(stdout).toContain('Standing on one leg: On foam');
    expect(stderr).toContain('Single-leg stance, level set by hand: ');
  });
});

describe('no page', () => {
  test('while a red flag is open; one once it is cleared', async () => {
    const held = await footing(['handout', 'visit.yaml'], { files: visit('redflags: {chest_pain: yes}') });
    expect([held.code, held.stdout]).toEqual([1, '']);
    expect(held.stderr).toContain('a red flag holds the plan');
    expect(held.stderr).toContain('clearance: {by: NAME, date: DAY, for: chest_pain}');
    const cleared = await footing(['handout', 'visit.yaml'], {
      files: visit('redflags: {chest_pain: yes}\nclearance: {by: Dr N., date: 2026-05-12, for: chest_pain}'),
    });
    expect(cleared.code).toBe(0);
  });

  test('of a file that is refused', async () => {
    const { code, stdout } = await footing(['handout', 'examples/mistakes.yaml']);
    expect([code, stdout]).toEqual([1, '']);
  });

  test('when everything is left out', async () => {
    const files = visit('plan: {choose: [squat], exercises: {squat: {leave_out: yes}}}');
    const { code, stderr } = await footing(['handout', 'visit.yaml'], { files });
    expect(code).toBe(1);
    expect(stderr).toContain('every exercise is left out');
  });

  test.each([
    ['plan: {days: 9}', 'days a week with exercise cannot be 9'],
    ['plan: {exercises: {squat: {level: 12}}}', 'ends at 8'],
    ['plan: {exercises: {sqat: {level: 1}}}', 'write squat instead'],
    ['plan: {choose: [plank]}', '`plank` cannot stand here'],
    ['plan: {exercises: {squat: {lvl: 1}}}', 'write level instead'],
    ['plan: 3', 'not made of lines'],
  ])('when the plan in the file is wrong: %s', async (more, message) => {
    const { code, stderr } = await footing(['handout', 'visit.yaml'], { files: visit(more) });
    expect(code).toBe(1);
    expect(stderr).toContain(message);
  });
});
