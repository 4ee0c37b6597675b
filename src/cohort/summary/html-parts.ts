/** Small parts of the summary page: numbers in words, bars, the look. */
import { html, type Markup } from '../../report/html/markup.ts';
import type { Count, Spread } from './types.ts';

export const counted = (count: Count): string => (count === null ? 'few' : String(count));
export const percent = (share: number): string => `${Math.round(share * 100)} %`;
export const decimal = (value: number, decimals: number): string => String(Number(value.toFixed(decimals)));

export function spreadInWords(spread: Spread | null, unit: string, decimals: number): string {
  if (spread === null) return 'not shown';
  const { median, p25, p75 } = spread;
  const of = unit === '' ? '' : ` ${unit}`;
  const middle = p25 === null || p75 === null ? '' : `, middle half ${decimal(p25, decimals)} to ${decimal(p75, decimals)}`;
  return `median ${decimal(median, decimals)}${of}${middle}`;
}

const WIDTH = 320;
const HEIGHT = 110;
const FOOT = 24;
const HEAD = 12;

/** Bars with their numbers; `expected` is drawn across them. A count that is withheld has no bar and says so. */
export function bars(counts: readonly Count[], labels: readonly string[], expected: number): Markup {
  const top = Math.max(expected, ...counts.map((count) => count ?? 0));
  const step = WIDTH / counts.length;
  const heightOf = (value: number): number => ((HEIGHT - FOOT - HEAD) * value) / top;
  const base = HEIGHT - FOOT;
  const bar = (count: Count, index: number): Markup => {
    const height = heightOf(count ?? 0);
    const x = index * step;
    return html`<rect x="${x + 2}" y="${base - height}" width="${step - 4}" height="${height}"/><text x="${x + step / 2}" y="${base - height - 2}">${counted(count)}</text><text x="${x + step / 2}" y="${HEIGHT - 8}" class="soft">${labels[index] ?? ''}</text>`;
  };
  const line = base - heightOf(expected);
  return html`<svg viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="Number of visits by tenths of the reference group: ${counts.map((count, index) => `${labels[index]}: ${counted(count)}`).join(', ')}">${counts.map(bar)}<line x1="0" x2="${WIDTH}" y1="${line}" y2="${line}"/></svg>`;
}

export const STYLE = `
:root { --ink: #1b2328; --soft: #4a565e; --line: #c9d1d6; --bar: #2f6d9a; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 66rem; padding: 1rem 1.25rem 2rem; color: var(--ink); background: #fff; font: 1rem/1.45 system-ui, sans-serif; }
h1 { font-size: 1.4rem; margin: 0; } h2 { font-size: 1.15rem; margin: 1.6rem 0 .4rem; border-bottom: 2px solid var(--line); } h3 { font-size: 1rem; margin: 1rem 0 .3rem; }
p { margin: .3rem 0; } .soft { color: var(--soft); font-size: .9rem; }
table { border-collapse: collapse; width: 100%; } th, td { text-align: left; vertical-align: top; padding: .3rem .5rem; border-bottom: 1px solid var(--line); }
thead th { color: var(--soft); font-weight: 600; } tbody th { font-weight: 600; }
.wide { overflow-x: auto; } .charts { display: grid; grid-template-columns: repeat(auto-fit, minmax(19rem, 1fr)); gap: 1rem; margin-top: .6rem; }
figure { margin: 0; border: 1px solid var(--line); border-radius: .4rem; padding: .6rem; break-inside: avoid; } svg { width: 100%; height: auto; }
svg rect { fill: var(--bar); } svg text { font-size: 8px; text-anchor: middle; fill: var(--ink); } svg text.soft { fill: var(--soft); font-size: 7.5px; } svg line { stroke: #9b1c1c; stroke-dasharray: 5 3; }
.look { border-left: .4rem solid #9b1c1c; padding: .2rem .8rem; }
@page { size: A4; margin: 14mm; }
@media print { body { padding: 0; max-width: none; font-size: 10pt; } section { break-inside: avoid-page; } }
`;
