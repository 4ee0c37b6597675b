/** Files and folders on the command line -> visit files: a folder stands for every .yaml and .yml file in it. */
import { CannotStart, fileErrorInWords, type Io } from './io.ts';

const VISIT_FILE = /\.ya?ml$/i;

/** In the order given; files of a folder in order of path. Throws CannotStart where a folder holds no visit file. */
export function visitFiles(paths: readonly string[], io: Io): string[] {
  return paths.flatMap((path) => {
    if (path === '-') return [path];
    let inside: readonly string[] | null;
    try {
      inside = io.listFolder(path);
    } catch (error) {
      throw new CannotStart(`cannot read ${path}: ${fileErrorInWords(error)}`);
    }
    if (inside === null) return [path];
    const visits = inside.filter((file) => VISIT_FILE.test(file));
    if (visits.length === 0) throw new CannotStart(`there is no .yaml or .yml file in ${path}`);
    return visits;
  });
}
