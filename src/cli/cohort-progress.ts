/** The line that a waiting person sees: rows, rate, time left, refused so far. Nothing where nobody waits. */
import type { Progress } from '../cohort/run.ts';
import type { OutputStream } from './io.ts';

const EVERY_MS = 500;

function duration(seconds: number): string {
  if (seconds < 60) return `${Math.ceil(seconds)} s`;
  return seconds < 3600 ? `${Math.ceil(seconds / 60)} min` : `${(seconds / 3600).toFixed(1)} h`;
}

export interface ProgressLine {
  readonly show: (progress: Progress) => void;
  readonly clear: () => void;
}

/** `size` in bytes; null where the end is not known. */
export function progressLine(stream: OutputStream, now: () => number, size: number | null): ProgressLine {
  if (!stream.isTerminal) return { show: () => undefined, clear: () => undefined };
  const start = now();
  let last = start;
  let shown = false;
  return {
    show: ({ bytes, accepted, refused }) => {
      const time = now();
      if (time - last < EVERY_MS) return;
      last = time;
      shown = true;
      const seconds = (time - start) / 1000;
      const rows = accepted + refused;
      const left = size === null || bytes === 0 ? '' : `, ${duration((seconds * Math.max(0, size - bytes)) / bytes)} left`;
      stream.write(`\r\u001b[K${rows} rows, ${Math.round(rows / seconds)} a second${left}, ${refused} refused`);
    },
    clear: () => {
      if (shown) stream.write('\r\u001b[K');
    },
  };
}
