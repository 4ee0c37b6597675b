/** Watching files for `footing check --watch`. */
import { type FSWatcher, watch } from 'node:fs';

/** Editors write a file in several steps: wait until they have finished. In milliseconds. */
const QUIET_FOR = 150;

/** Resolves on Ctrl+C. */
export function watchPaths(paths: readonly string[], then: () => Promise<void>): Promise<void> {
  return new Promise((resolve, reject) => {
    let timer: NodeJS.Timeout | undefined;
    const changed = (_event: string, name: string | null): void => {
      if (name !== null && !/\.ya?ml$/i.test(name)) return;
      clearTimeout(timer);
      timer = setTimeout(() => then().catch(reject), QUIET_FOR);
    };
    const watchers: FSWatcher[] = paths.filter((path) => path !== '-').map((path) => watch(path, { recursive: true }, changed));
    process.once('SIGINT', () => {
      clearTimeout(timer);
      for (const watcher of watchers) watcher.close();
      resolve();
    });
  });
}
