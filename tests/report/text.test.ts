import { describe, expect, test } from 'vitest';
import { copd74, unable86, undetermined } from './fixture.ts';
import { assessment, error, exercise, result, risk } from './parts.ts';
import { joined, section, textOf } from './support.ts';

describe('the top of the report', () => {
  test('reads in this order: client, what needs a doctor, risk, tests, plan, factors, not asked, basis, cautions, sources', () => {
    const titles = [
      'Client M-207',
      'WHAT NEEDS A DOCTOR FIRST',
      'FALL RISK',
      'TESTS',
      'STARTING LEVELS',
      'CONTRIBUTING FACTORS',
      'NOT ASKED TODAY',
      'BASIS',
      'CAUTIONS',
      'SOURCES',
    ];
    const places = titles.map((title) => textOf(copd74).indexOf(`\n${title}`));
    expect(places.every((place) => place > 0)).toBe(true);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
  });

  test('red flags, level, what to do and what is missing fit into the first screen', () => {
    const screen = textOf(undetermined).split('\n').slice(0, 32).join('\n');
    for (const needed of ['Client U-9', 'EMERGENCY', 'Cannot be settled yet: at least low, at most high', 'Do next', 'Missing'])
      expect(screen).toContain(needed);
  });

  test('the most urgent red flag stands first, each with what to do', () => {
    const lines = section(textOf(undetermined), 'WHAT NEEDS A DOCTOR FIRST: 3 FINDINGS').split('\n');
    const flags = lines.filter((line) => line.startsWith('  !! '));
    expect(flags).toEqual([
      '  !! EMERGENCY, ACT NOW: Chest pain now',
      '  !! DOCTOR TODAY: Loss of consciousness',
      '  !! CLEAR WITH A DOCTOR BEFORE EXERCISE: New back pain',
    ]);
    expect(lines).toContain('     Do        Call the emergency number.');
  });

  test('no red flag is not comfort while questions were not asked', () => {
    const quiet = assessment({ risk: risk({ not_asked: ['Chest pain?', 'Head injury?'] }) });
    expect(joined(section(textOf(quiet), 'WHAT NEEDS A DOCTOR FIRST'))).toContain(
      'Nothing found in what was recorded. 2 points were not asked today and are not ruled out',
    );
    expect(section(textOf(quiet), 'NOT ASKED TODAY')).toContain('  - Head injury?');
  });

  test('low by the questions only says so in the same line', () => {
    expect(joined(textOf(unable86))).toContain(
      '>> Low risk. But: low by the questions only; gait impaired / frail: assess as if not low by Invented',
    );
    expect(textOf(unable86)).toContain('  Note      Low is not none. [1]');
  });

  test('what would settle the level is asked, looked up or tested', () => {
    const text = joined(section(textOf(undetermined), 'FALL RISK'));
    expect(text).toContain('- Look up: Where does the client live?');
    expect(text).toContain('- Ask: Was any fall followed by an injury that needed a doctor?');
    expect(text).toContain('- Test: Time the usual walking speed or the timed up and go.');
    expect(text).toContain('do not treat this client as low.');
  });

  test('reasons, review day and other pathways', () => {
    const text = joined(section(textOf(copd74), 'FALL RISK'));
    expect(text).toContain('Why - fell once in the past year; feels unsteady when standing or walking');
    expect(text).toContain('By 11 May 2027 at the latest. [1, recalled, not checked against the paper]');
    expect(text).toContain('Second pathway 2019: At risk; differs because it has two levels only');
    expect(text).toContain('Check tests.four_square_step: 41 s is unusual; kept as entered');
  });
});

test('a probability stands in a section of its own, with its interval, parts and warning', () => {
  const text = joined(section(textOf(copd74), 'PROBABILITY'));
  expect(text).toContain('33 % to 50 % (95 % interval round 41 %); before any answer or test 30 %');
  expect(text).toContain('Warning A guideline advises against such numbers.');
  expect(text).toContain('odds times 1.65 (95 % interval 1.4 to 1.95); slow timed up and go: yes');
  expect(textOf(undetermined)).not.toContain('PROBABILITY');
});

describe('the tests', () => {
  const tests = section(textOf(copd74, 110), 'TESTS');
  test('one line a result: sign, name, value, standing', () => {
    expect(tests).toMatch(/^! Timed up and go +12\.8 s +usual for age, yet in the range linked with falls$/m);
    expect(tests).toMatch(/^ {2}Tandem stance +at least 10 s +usual for age and sex, as far as this test can tell$/m);
    expect(tests).toMatch(/^- 30-second chair stand +declined +not tested today, so nothing is known$/m);
  });

  test('place with its source and how it was read', () => {
    expect(joined(tests)).toContain(
      'about the 38th percentile (approximate) of both sexes 71-75; average 10.4 s [2, read in the abstract]',
    );
    expect(joined(tests)).toContain('[6, computed from public survey data]');
    expect(joined(tests)).toContain('average 18.4 s among women 70-74 [4, recalled, not checked against the paper]');
  });

  test('marks met, near, undecided and not met', () => {
    const text = joined(tests);
    expect(text).toContain(
      '"12 s or more" is met, but inside the measurement error of the mark; outcome: falls in the following year [1]',
    );
    expect(text).toContain('"under 5 s" is not met, yet inside the measurement error of the mark');
    expect(text).toContain('"tandem under 10 s" cannot be decided: the watch was stopped before it');
    expect(text).toContain('not met: "more than 15 s"');
    expect(text).not.toContain('death within ten years');
  });

  test('trials, error, category, reason and origin', () => {
    const text = joined(tests);
    for (const words of [
      'Trials 4.2, 6 and 5.1 s',
      'the true value probably lies between 11.3 and 14.3 s; a later change of up to 2.08 s may be noise',
      'Reason knee pain since Monday',
      'worked out from tandem stance 10 s',
    ])
      expect(text).toContain(words);
    expect(tests).toMatch(/14 points, high/);
  });

  test('tables that disagree share a line; standings are spoken, not coded', () => {
    const notes = [
      'by one-source the standing would be "expected"',
      'by two-source the standing would be "well below"',
      'by three-source the standing would be "expected"',
      'close to the edge of the age band: among women 75-79 the standing would be "above"',
    ];
    const text = joined(textOf(assessment({ tests: [result({ notes, side: 'right' }), result({ notes, side: 'left' })] })));
    expect(text).toContain(
      'other tables disagree: usual by one-source, three-source; well below usual by two-source (see the basis)',
    );
    expect(text).toContain('among women 75-79 the result would be better than usual');
    expect(text.split('other tables disagree')).toHaveLength(2);
  });

  test('a time stopped at its ceiling gets no interval', () => {
    const stopped = result({ value: 45, at_least: true, measurement_error: error({ low: 28, high: 62.1 }) });
    const text = joined(textOf(assessment({ tests: [stopped] })));
    expect(text).not.toContain('the true value probably lies');
    expect(text).toContain('a later change of up to 2.08 s may be noise');
  });

  test('a client without tests is told so', () =>
    expect(section(textOf(undetermined), 'TESTS')).toContain('No test was recorded.'));
});

describe('the plan', () => {
  test('goes by purpose in the order of a session', () => {
    const text = section(textOf(copd74), 'STARTING LEVELS');
    const places = ['\nWarm-up', '\nStrength', '\nStanding balance', '\nMoving balance', '\nStretch'].map((title) =>
      text.indexOf(title),
    );
    expect(places.every((place) => place > 0)).toBe(true);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
  });

  test('says whose rule it is, and what several exercises share only once', () => {
    const text = joined(section(textOf(copd74), 'STARTING LEVELS'));
    expect(text).toContain("is no published rule: it is this program's own, written to be reviewed and edited");
    expect(text.split('Breathe out on the effort')).toHaveLength(2);
    expect(text.split('lifts when the frailty scale is recorded')).toHaveLength(2);
    expect(text).toContain('Limits not beyond "Fingertip on the bench": see A');
    expect(text).toContain('For every exercise - With somebody nearby.');
    expect(text).toContain('lowered: long-term steroid tablets');
  });

  test('a held exercise suggests nothing, and says what holds it', () => {
    const text = section(textOf(undetermined), 'STARTING LEVELS');
    expect(text).toContain('[-] Squat - held, not today');
    expect(joined(text)).toContain('held: chest pain; nothing is started before a doctor has seen the client');
    expect(text).not.toContain('repetitions');
  });

  test('a reason with another effect on each ladder gets a letter, and each effect is kept', () => {
    const reason = 'Walks with a frame: a firm hold stays';
    const plan = ['one', 'two', 'three'].map((name, index) =>
      exercise({
        exercise: name,
        name,
        limited_by: [index === 0 ? `lowered: ${reason}` : `not beyond "Step ${index}": ${reason}`],
      }),
    );
    const text = joined(section(textOf(assessment({ plan })), 'STARTING LEVELS'));
    expect(text.split(reason)).toHaveLength(2);
    expect(text).toContain(`A: ${reason}`);
    for (const line of ['Limits lowered: see A', 'Limits not beyond "Step 1": see A', 'Limits not beyond "Step 2": see A'])
      expect(text).toContain(line);
  });

  test('level, seated variant and company in words', () => {
    const text = joined(section(textOf(copd74), 'STARTING LEVELS'));
    expect(text).toContain('[ ] Ankle circles - seated variant Start Ankle circles on a chair: seated, eyes open');
    expect(text).toContain(
      '[ ] Tandem stance - level 3 of 7 Start Light touch on the bench: one foot in front of the other, firm floor, eyes open, ball passed from hand to hand',
    );
    expect(joined(textOf(unable86))).toContain('With with the professional present');
  });

  test('a rung whose name does not say where the hands are gets its support in words', () => {
    const rung = { ...exercise({}).start, name: 'Half squat', support: 'hands_free' };
    expect(joined(textOf(assessment({ plan: [exercise({ start: rung })] })))).toContain(
      'Half squat: hands free, support within reach, feet hip-wide',
    );
  });
});

describe('the basis', () => {
  const basis = joined(section(textOf(copd74), 'BASIS'));
  test('shows row, formula, result, fit and the other tables', () => {
    expect(basis).toContain(
      'Row invented-table-b, Abstract, both sexes 71-75 (people living at home in an invented country) [2, read in the abstract]',
    );
    expect(basis).toContain(
      'Formula z = -(12.8 - 11.9) / 3.1 = -0.29 Gives compared: 12.8 s; z -0.29 (positive is better); percentile 38.4; approximate',
    );
    expect(basis).toContain('Fit - another country - people without lung disease');
    expect(basis).toContain('worse than the average by: women 70-74, average 9.2 s [4, recalled, not checked against the paper]');
    expect(basis).toContain('below usual by: women 70-74, at most the 9th percentile [5]');
  });

  test('shows marks that do not count as such, with accuracy where published', () => {
    expect(basis).toContain('shown, not counted for falls: "10 s or more" met (death within ten years)');
    expect(basis).toContain('sensitivity 0.31; specificity 0.74');
  });

  test('remarks common to both sides stand once', () =>
    expect(basis.split('skewed: most people are at the ceiling')).toHaveLength(2));

  test('shows the path with what was not reached', () => {
    const path = joined(section(textOf(undetermined), 'BASIS'));
    expect(path).toContain('2. Any sign of severity? UNKNOWN');
    expect(path).toContain('3. Are gait and balance impaired? PERHAPS REACHED: UNKNOWN');
    expect(path).toContain('4. Anything after that? NOT REACHED');
    expect(path).not.toContain('never looked at');
  });

  test('lists every source once with DOI, place and status, and the versions', () => {
    const sources = joined(section(textOf(copd74), 'SOURCES'));
    expect(sources).toContain(
      '[1] Invented guideline body. How to test a report. 2022. doi:10.1000/invented.1 - Table 1. {invented-guideline}',
    );
    expect(sources).toContain('(recalled, not checked against the paper) {invented-recalled}');
    expect(sources).toContain('1 further source was looked at; the JSON record lists all.');
    expect(sources).not.toContain('invented-uncited');
    expect(sources).toContain('footing 0.0.0, evidence 0.0.0 (0123456789ab)');
  });

  test('a source that is not in the list is named, not dropped', () =>
    expect(joined(textOf(assessment({ ...copd74, sources: {} })))).toContain('not in the list of sources {invented-table-b}'));
});
