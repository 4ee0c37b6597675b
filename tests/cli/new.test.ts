/** `footing new` as a whole: asked by a script in the place of a person, stopped and taken up again, or as an empty form. */
import { describe, expect, it } from 'vitest';
import type { Asker, Line, Reply } from '../../src/cli/asker.ts';
import { footing, spawned } from '../support/run.ts';

interface Script {
  /** Answers by the beginning of a question; a list is gone through; everything else gets an empty line. */
  readonly answers: Readonly<Record<string, string | readonly string[]>>;
  readonly confirm?: (question: string) => boolean;
}

interface Played {
  readonly asker: Asker;
  readonly told: string[];
  readonly refused: string[];
  readonly asked: string[];
}

/** Types as the terminal does: a refused line is followed by the next one of its list. */
function play({ answers, confirm = () => false }: Script): Played {
  const [told, refused, asked]: [string[], string[], string[]] = [[], [], []];
  const left = new Map(Object.entries(answers).map(([key, value]) => [key, typeof value === 'string' ? [value] : [...value]]));
  const next = (line: Line): string => {
    const key = [...left.keys()].find((start) => line.ask.startsWith(start));
    const list = key === undefined ? undefined : left.get(key);
    return list?.shift() ?? line.before;
  };
  const ask = async (line: Line): Promise<Reply> => {
    asked.push(line.ask);
    for (let tries = 0; tries < 9; tries += 1) {
      const text = next(line);
      if (text === '<') return { kind: 'back' };
      if (text === '?') return { kind: 'explain' };
      if (text === 'STOP') return { kind: 'stop' };
      const judgement = line.judge(text);
      if (judgement.verdict !== 'problem') return { kind: 'text', text };
      refused.push(judgement.message);
    }
    throw new Error(`no answer fits ${line.ask}`);
  };
  return {
    asker: { ask, confirm: async (question) => confirm(question), tell: (text) => told.push(text) },
    told,
    refused,
    asked,
  };
}

const NEEDED = { 'Your own reference': 'M-207', Sex: 'f', Age: '74', 'Day of the visit': '2026-05-11' };

describe.skipIf(spawned !== undefined)('footing new, answered', () => {
  it('writes a visit that can be scored, with the schema for editors beside it', async () => {
    const { asker, told } = play({
      answers: { ...NEEDED, 'Tests that': 'tug', 'Timed up and go': '12.8' },
      confirm: (question) => /assessment/.test(question),
    });
    const { code, stdout, files } = await footing(['new'], { asker, files: {} });
    expect(code).toBe(0);
    expect(told.join('\n')).toContain('wrote M-207-2026-05-11.yaml');
    expect(files['M-207-2026-05-11.yaml']).toMatch(/^# yaml-language-server: \$schema=\.\/visit\.schema\.json\nformat: 1/);
    expect(files['visit.schema.json']).toContain('draft-07');
    expect(stdout).toContain('M-207');
    expect(Object.keys(files).filter((name) => name.endsWith('.draft'))).toEqual([]);
  });

  it('helps with two slips and shows the protocol on ?', async () => {
    const { asker, told, refused } = play({
      answers: { ...NEEDED, Sex: ['x', 'f'], 'Tests that': 'tug', 'Timed up and go': ['?', '12,8', '12.8'] },
    });
    const { files } = await footing(['new', 'visit.yaml'], { asker, files: {} });
    expect(refused.join('\n')).toContain('none of female, male');
    expect(refused.join('\n')).toContain('write 12.8 with a point');
    expect(told.join('\n')).toContain('a line on the floor 3 m (10 ft)');
    expect(files['visit.yaml']).toContain('timed_up_and_go: 12.8');
  });

  it('goes back, with the earlier answer in the line', async () => {
    const { asker, asked } = play({ answers: { ...NEEDED, Age: ['<', '74'], Sex: ['f', 'm'] } });
    const { files } = await footing(['new', 'visit.yaml'], { asker, files: {} });
    expect(asked.slice(0, 5).map((each) => each.split(' ')[0])).toEqual(['Your', 'Sex,', 'Age', 'Sex,', 'Age']);
    expect(files['visit.yaml']).toContain('sex: male');
  });

  it('is stopped, and goes on where it stopped', async () => {
    const first = play({ answers: { ...NEEDED, 'Falls in': 'STOP' } });
    const stopped = await footing(['new'], { asker: first.asker, files: {} });
    expect(stopped.code).toBe(0);
    expect(first.told.join('\n')).toContain('footing new');
    expect(Object.keys(stopped.files)).toEqual(['M-207-2026-05-11.yaml.draft']);
    const second = play({ answers: { 'Falls in': '1' }, confirm: (question) => /^Go on/.test(question) });
    const { files } = await footing(['new'], { asker: second.asker, files: stopped.files });
    expect(second.asked[0]).toBe('Falls in the past year');
    expect(files['M-207-2026-05-11.yaml']).toContain('falls_past_year: 1');
    expect(Object.keys(files).some((name) => name.endsWith('.draft'))).toBe(false);
  });

  it('a visit begun today and gone on with tomorrow keeps its day', async () => {
    const first = play({ answers: { ...NEEDED, 'Day of the visit': '', 'Falls in': 'STOP' } });
    const stopped = await footing(['new'], { asker: first.asker, files: {}, today: '2026-05-11' });
    const second = play({ answers: {}, confirm: (question) => /^Go on/.test(question) });
    const { files } = await footing(['new'], { asker: second.asker, files: stopped.files, today: '2026-05-12' });
    expect(files['M-207-2026-05-11.yaml']).toContain('assessed: 2026-05-11');
  });

  it('never writes over a visit', async () => {
    const { asker } = play({ answers: NEEDED });
    const { code, stderr, files } = await footing(['new', 'visit.yaml'], { asker, files: { 'visit.yaml': 'mine' } });
    expect(code).toBe(2);
    expect(stderr).toContain('is there already');
    expect(files['visit.yaml']).toBe('mine');
  });
});

describe('footing new without questions', () => {
  it('needs a terminal to ask, and says what does not', async () => {
    const { code, stderr } = await footing(['new']);
    expect(code).toBe(2);
    expect(stderr).toContain('new --blank');
  });

  it('--blank prints a form, --tests a short one', async () => {
    const long = await footing(['new', '--blank']);
    expect(long.stdout).toContain('  grip_strength:');
    const short = await footing(['new', '--blank', '--tests', 'tug 5sts sls', 'short.yaml']);
    expect(short.files['short.yaml']?.split('tests:\n')[1]?.match(/^ {2}\w+:/gm)).toEqual([
      '  timed_up_and_go:',
      '  five_times_sit_to_stand:',
      '  single_leg_stance_eyes_open:',
    ]);
  });

  it('--paper is a page with places for the pen, without anything from outside', async () => {
    const { stdout } = await footing(['new', '--paper', '--tests', 'tug sls']);
    expect(stdout).toContain('Timed up and go');
    expect(stdout).toContain('right <span class="box">');
    expect(stdout).not.toMatch(/<script|src=|<link/);
  });

  it('a name that is no test is helped', async () => {
    const { code, stderr } = await footing(['new', '--blank', '--tests', 'tugg']);
    expect(code).toBe(2);
    expect(stderr).toContain('perhaps');
  });
});
