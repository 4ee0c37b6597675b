/** The one place that knows where a person's own settings and norms live: the XDG folder, or its equivalent on Windows. */
import { posix, win32 } from 'node:path';
import type { Io } from './io.ts';

const given = (value: string | undefined): value is string => value !== undefined && value !== '';

/**
 * `$XDG_CONFIG_HOME/footing`; else on Windows `%APPDATA%\footing`; else `~/.config/footing`. Null where none is known.
 * XDG asks for absolute paths and for relative ones to be ignored.
 */
export function userFolderOf(env: Io['env']): string | null {
  const { XDG_CONFIG_HOME: xdg, APPDATA: roaming, HOME: home, USERPROFILE: profile } = env;
  if (given(xdg) && (posix.isAbsolute(xdg) || win32.isAbsolute(xdg))) return posix.join(xdg, 'footing');
  if (given(roaming) && !given(home)) return win32.join(roaming, 'footing');
  if (given(home)) return posix.join(home, '.config', 'footing');
  return given(profile) ? posix.join(profile, '.config', 'footing') : null;
}

/** `~/...` for what lies in the person's own home, so that a report does not show whose home it is. */
export function shownPath(path: string, env: Io['env']): string {
  const home = env.HOME ?? env.USERPROFILE;
  if (!given(home) || home === '/') return path;
  const inside = path.slice(home.length);
  return path.startsWith(home) && /^[/\\]/.test(inside) ? `~${inside}` : path;
}
