/** Questions on a real terminal, by the prompt library. Loaded only by `footing new`, and only when it asks. */
import { createPrompt, isEnterKey, isUpKey, useEffect, useKeypress, useState } from '@inquirer/core';
import type { Judgement } from '../intake/interview/visit.ts';
import type { Asker, Line, Reply } from './asker.ts';
import { colourFor } from './colour.ts';
import type { Io } from './io.ts';

type Colours = ReturnType<typeof colourFor>;

/** Ctrl+C, and the terminal going away. */
const isInterruption = (error: unknown): boolean =>
  error instanceof Error && ['ExitPromptError', 'AbortPromptError', 'CancelPromptError'].includes(error.name);

/** What Enter does with the line: an answer, a step back, or a message and another try. */
type Entered = { readonly reply: Reply } | { readonly message: string };

function entered(typed: string, judge: Line['judge'], warnedOf: string | null): Entered {
  if (typed.trim() === '<') return { reply: { kind: 'back' } };
  const judgement = judge(typed);
  if (judgement.verdict === 'problem') return { message: judgement.message };
  if (judgement.verdict === 'ask_again' && warnedOf !== typed) return { message: `${judgement.message} - Enter keeps it` };
  return { reply: { kind: 'text', text: typed.trim() } };
}

const remarkOf = (judgement: Judgement): string | null => (judgement.verdict === 'ok' ? null : judgement.message);

/** The lines under the one that is typed: the protocol, then what is wrong, or what can be typed. */
function below({ detail, hint, judge }: Line, text: string, refused: string | null, colour: Colours): string {
  const card = detail === '' ? '' : `${colour.dim(`  ${detail}`)}\n`;
  if (refused !== null) return `${card}  ${colour.bold(`! ${refused}`)}`;
  const remark = text.trim() === '' || text.trim() === '<' ? null : remarkOf(judge(text));
  return `${card}${colour.dim(remark === null ? `  ${hint}` : `  so far: ${remark}`)}`;
}

/** A line that is judged while it is typed. */
function linePrompt(colour: Colours) {
  return createPrompt<Reply, Line>((line, done) => {
    const [text, setText] = useState(line.before);
    const [warnedOf, setWarnedOf] = useState<string | null>(null);
    const [refused, setRefused] = useState<string | null>(null);
    const [finished, setFinished] = useState(false);
    useEffect((readline) => readline.write(line.before), []);
    const finish = (reply: Reply): void => {
      setFinished(true);
      done(reply);
    };
    useKeypress((key, readline) => {
      if (isUpKey(key)) return finish({ kind: 'back' });
      if (!isEnterKey(key)) {
        setText(readline.line);
        setRefused(null);
        return readline.line.trim() === '?' ? finish({ kind: 'explain' }) : undefined;
      }
      const result = entered(text, line.judge, warnedOf);
      if ('reply' in result) return finish(result.reply);
      setWarnedOf(text);
      setRefused(result.message);
      // The line stays as it was typed, to be corrected.
      readline.clearLine(0);
      readline.write(text);
      return undefined;
    });
    const place = line.place === '' ? '' : `${colour.dim(line.place)}  `;
    const head = `${place}${colour.bold(`${line.ask}:`)}`;
    return finished ? `${head} ${colour.cyan(line.echo(text))}` : [`${head} ${text}`, below(line, text, refused, colour)];
  });
}

const YES_OR_NO: Judgement = { verdict: 'problem', message: 'type y or n' };
const isYes = (text: string, usual: boolean): boolean => (text.trim() === '' ? usual : /^y/i.test(text.trim()));

export function terminalAsker(io: Io, noColour: boolean): Asker {
  const prompt = linePrompt(colourFor(io.stdout, io.env, noColour));
  const ask = async (line: Line): Promise<Reply> => {
    try {
      return await prompt(line);
    } catch (error) {
      if (isInterruption(error)) return { kind: 'stop' };
      throw error;
    }
  };
  return {
    ask,
    confirm: async (question, usual) => {
      const reply = await ask({
        place: '',
        ask: question.replace(/\?$/, ''),
        detail: '',
        hint: `y or n; Enter: ${usual ? 'yes' : 'no'}`,
        before: '',
        echo: (text) => (isYes(text, usual) ? 'yes' : 'no'),
        judge: (text) => (/^(y(es)?|no?|)$/i.test(text.trim()) ? { verdict: 'ok' } : YES_OR_NO),
      });
      return reply.kind === 'text' && isYes(reply.text, usual);
    },
    tell: (text) => io.stdout.write(`${text}\n`),
  };
}
