/** Small parts of the summary page: bars and the look. */
import { html, type Markup } from '../../report/html/markup.ts';
import { highest, isSmall, lowest } from './bands.ts';
import type { Count } from './types.ts';
import { countedInWords } from './words.ts';

/** From here on a band is wider than a bar. */
const NO_ROOM = 100;

/** For the foot of a bar: short, and for a large band its middle. */
function briefly(count: Count): string {
  if (typeof count === 'number') return String(count);
  const { from, to } = count;
  if (from === 0) return `\u2264${to}`;
  return from < NO_ROOM ? `${from}-${to}` : `~${(from + to) / 2}`;
}

/** As high as the middle of a band; nothing where there may be nobody. */
const heightOf = (count: Count): number => (isSmall(count) ? 0 : (lowest(count) + highest(count)) / 2);

const WIDTH = 400;
const HEIGHT = 110;
const FOOT = 24;
const HEAD = 12;
const END: Markup = { markup: ' class="end"' };

export interface Bars {
  readonly counts: readonly Count[];
  readonly labels: readonly string[];
  /** Left and right of the bars, with a line of their own each: people without a place among them. */
  readonly ends: readonly [Count, Count];
  readonly expected: number;
}

/** Bars with their numbers; `expected` is drawn across the tenths. A count in the first band has no bar. */
export function bars({ counts, labels, ends, expected }: Bars): Markup {
  const all = [ends[0], ...counts, ends[1]];
  const names = ['worst end', ...labels, 'best end'];
  const top = Math.max(expected, ...all.map(heightOf));
  const step = WIDTH / all.length;
  const scaled = (value: number): number => ((HEIGHT - FOOT - HEAD) * value) / top;
  const base = HEIGHT - FOOT;
  const bar = (count: Count, index: number): Markup => {
    const height = scaled(heightOf(count));
    const x = index * step;
    const isEnd = index === 0 || index === all.length - 1;
    return html`<rect x="${x + 2}" y="${base - height}" width="${step - 4}" height="${height}"${isEnd ? END : null}/><text x="${x + step / 2}" y="${base - height - 2}">${briefly(count)}</text><text x="${x + step / 2}" y="${HEIGHT - 8}" class="soft">${names[index] ?? ''}</text>`;
  };
  const line = base - scaled(expected);
  return html`<svg viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="Number of visits by tenths of the reference group: ${all.map((count, index) => `${names[index]}: ${countedInWords(count)}`).join(', ')}">${all.map(bar)}<line x1="${step}" x2="${WIDTH - step}" y1="${line}" y2="${line}"/></svg>`;
}

export const STYLE = `
:root { --ink: #1b2328; --soft: #4a565e; --line: #c9d1d6; --bar: #2f6d9a; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 66rem; padding: 1rem 1.25rem 2rem; color: var(--ink); background: #fff; font: 1rem/1.45 system-ui, sans-serif; }
h1 { font-size: 1.4rem; margin: 0; } h2 { font-size: 1.15rem; margin: 1.6rem 0 .4rem; border-bottom: 2px solid var(--line); } h3 { font-size: 1rem; margin: 1rem 0 .3rem; }
p { margin: .3rem 0; } .soft { color: var(--soft); font-size: .9rem; }
table { border-collapse: collapse; width: 100%; } th, td { text-align: left; vertical-align: top; padding: .3rem .5rem; border-bottom: 1px solid var(--line); }
thead th { color: var(--soft); font-weight: 600; } tbody th { font-weight: 600; }
.wide { overflow-x: auto; } .charts { display: grid; grid-template-columns: repeat(auto-fit, minmax(24rem, 1fr)); gap: 1rem; margin-top: .6rem; }
figure { margin: 0; border: 1px solid var(--line); border-radius: .4rem; padding: .6rem; break-inside: avoid; } svg { width: 100%; height: auto; }
svg rect { fill: var(--bar); } svg text { font-size: 8px; text-anchor: middle; fill: var(--ink); } svg text.soft { fill: var(--soft); font-size: 7.5px; } svg rect.end { fill: var(--soft); } svg line { stroke: #9b1c1c; stroke-dasharray: 5 3; }
.look { border-left: .4rem solid #9b1c1c; padding: .2rem .8rem; }
@page { size: A4; margin: 14mm; }
@media print { body { padding: 0; max-width: none; font-size: 10pt; } tr, .look { break-inside: avoid; } h2, h3 { break-after: avoid; } .charts { grid-template-columns: 1fr 1fr; } }
`;
