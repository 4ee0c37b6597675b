/** Questions on a real terminal, by the prompt library. Loaded only by `footing new`, and only when it asks. */
import { createPrompt, isEnterKey, isUpKey, useEffect, useKeypress, useState } from '@inquirer/core';
import type { Asker, Line, Reply } from './asker.ts';
import { colourFor } from './colour.ts';
import type { Io } from './io.ts';

/** Ctrl+C, and the terminal going away. */
const isInterruption = (error: unknown): boolean =>
  error instanceof Error && ['ExitPromptError', 'AbortPromptError', 'CancelPromptError'].includes(error.name);

/** A line that shows what is wrong while it is typed. */
function linePrompt(colour: ReturnType<typeof colourFor>) {
  return createPrompt<Reply, Line>(({ place, ask, detail, hint, before, judge, echo }, done) => {
    const [text, setText] = useState(before);
    const [warned, setWarned] = useState<string | null>(null);
    const [refused, setRefused] = useState<string | null>(null);
    const [finished, setFinished] = useState(false);
    useEffect((readline) => {
      readline.write(before);
    }, []);
    const finish = (reply: Reply): void => {
      setFinished(true);
      done(reply);
    };
    useKeypress((key, readline) => {
      const typed = isEnterKey(key) ? text : readline.line;
      if (isUpKey(key)) return finish({ kind: 'back' });
      if (!isEnterKey(key)) {
        setText(typed);
        setRefused(null);
        if (typed.trim() === '?') finish({ kind: 'explain' });
        return undefined;
      }
      if (typed.trim() === '<') return finish({ kind: 'back' });
      const judgement = judge(typed);
      if (judgement.verdict === 'ok' || (judgement.verdict === 'ask_again' && warned === typed))
        return finish({ kind: 'text', text: typed.trim() });
      if (judgement.verdict === 'ask_again') setWarned(typed);
      setRefused(judgement.message);
      // The line stays as it was typed, to be corrected.
      readline.clearLine(0);
      readline.write(typed);
      return undefined;
    });
    const head = `${place === '' ? '' : `${colour.dim(place)}  `}${colour.bold(`${ask}:`)}`;
    if (finished) return `${head} ${colour.cyan(echo(text))}`;
    const judgement = text.trim() === '' || text.trim() === '<' ? null : judge(text);
    const remark = refused ?? (judgement === null || judgement.verdict === 'ok' ? null : judgement.message);
    const again = warned === text && refused !== null ? ' - Enter keeps it' : '';
    const below =
      remark === null
        ? colour.dim(`  ${hint}`)
        : `  ${refused === null ? colour.dim(`so far: ${remark}`) : colour.bold(`! ${remark}${again}`)}`;
    const card = detail === '' ? '' : `${colour.dim(`  ${detail}`)}\n`;
    return [`${head} ${text}`, `${card}${below}`];
  });
}

export function terminalAsker(io: Io, noColour: boolean): Asker {
  const colour = colourFor(io.stdout, io.env, noColour);
  const line = linePrompt(colour);
  const ask = async (config: Line): Promise<Reply> => {
    try {
      return await line(config, { clearPromptOnDone: false });
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
        echo: (text) => ((text.trim() === '' ? usual : /^y/i.test(text.trim())) ? 'yes' : 'no'),
        judge: (text) =>
          /^(y(es)?|no?|)$/i.test(text.trim()) ? { verdict: 'ok' } : { verdict: 'problem', message: 'type y or n' },
      });
      if (reply.kind !== 'text') return false;
      return reply.text === '' ? usual : /^y/i.test(reply.text);
    },
    tell: (text) => io.stdout.write(`${text}\n`),
  };
}
