/** Reads visit files for any command: every problem goes to standard error, refused files are left out, the rest goes on. */
import type { Evidence } from '../evidence/data.ts';
import { formatProblem, parseSession } from '../intake/index.ts';
import type { Session } from '../session.ts';
import { EXIT, fileErrorInWords } from './io.ts';
import type { Invocation } from './main.ts';

export interface ReadSessions {
  readonly sessions: readonly Session[];
  /** 0 all read, 1 some refused, 2 some not there. */
  readonly code: number;
}

/** `-` is standard input. */
async function readText(file: string, { io }: Invocation): Promise<string> {
  return file === '-' ? io.stdin.read() : io.readFile(file);
}

/** What a setting changed stands in every result, whatever its form. */
const withSettingNotes = (session: Session, { settingNotes }: Invocation): Session =>
  settingNotes.length === 0 ? session : { ...session, notes: [...session.notes, ...settingNotes] };

export async function readSessions(files: readonly string[], evidence: Evidence, invocation: Invocation): Promise<ReadSessions> {
  const { io } = invocation;
  const sessions: Session[] = [];
  let code: number = EXIT.done;
  for (const file of files) {
    const shown = file === '-' ? 'standard input' : file;
    let text: string;
    try {
      text = await readText(file, invocation);
    } catch (error) {
      io.stderr.write(`footing: cannot read ${shown}: ${fileErrorInWords(error)}\n`);
      code = EXIT.cannotStart;
      continue;
    }
    const { session, problems } = parseSession(text, { file: shown, catalogue: evidence, today: io.today() });
    for (const problem of problems) io.stderr.write(`${formatProblem(problem)}\n`);
    if (session !== null) sessions.push(withSettingNotes(session, invocation));
    else {
      const count = problems.filter((problem) => problem.severity === 'error').length;
      io.stderr.write(`${shown}: not scored, ${count} ${count === 1 ? 'problem' : 'problems'} to put right\n`);
      code = Math.max(code, EXIT.refused);
    }
  }
  return { sessions, code };
}
