/**
 * One test as an SVG: the client's results with their error on top, the table used below them, other tables under it, marks
 * linked with falls as dashed lines. Shapes and words carry the meaning; the same numbers stand in a table beside it.
 */
import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { symbol, symbolDiamond, symbolTriangle } from 'd3-shape';
import { plainNumber, unitWords } from '../view/numbers.ts';
import type { Picture, PictureResult, PictureTable } from '../view/pictures.ts';
import { html, type Markup } from './markup.ts';

const WIDTH = 400;
const EDGE = 14;
const TOP = 20;
const RESULT_ROW = 24;
const TABLE_ROW = 32;
const AXIS = 34;
const MARK_GAP = 26;

type Scale = ScaleLinear<number, number>;

const round = (value: number): number => Math.round(value * 10) / 10;
const numbers = (values: readonly (number | null)[]): number[] => values.filter((value) => value !== null);

/** Everything that is drawn but the far ends of other tables, which are cut at the frame. */
function domainOf(picture: Picture): [number, number] {
  const [used] = picture.tables;
  const values = [
    ...picture.results.flatMap((result) => numbers([result.value, result.low, result.high, ...result.trials])),
    ...(used === undefined ? [] : numbers(used.nineInTen)),
    ...picture.tables.flatMap((table) => numbers([...table.middleHalf, table.centre])),
    ...picture.marks.map((mark) => mark.value),
  ];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const pad = (high - low) * 0.08 || Math.abs(high) * 0.2 || 1;
  return [Math.max(0, low - pad), high + pad];
}

const within = (x: Scale, value: number): number => {
  const [low, high] = x.domain();
  return round(x(Math.min(high ?? value, Math.max(low ?? value, value))));
};

/** Open ends run to the frame, since the table says only "more than" there. */
function bar(x: Scale, [low, high]: PictureTable['middleHalf'], y: number, height: number, name: string): Markup | null {
  if (low === null && high === null) return null;
  const [start, end] = x.domain();
  const left = within(x, low ?? start ?? 0);
  const right = within(x, high ?? end ?? 0);
  return html`<rect class="${name}" x="${left}" y="${y}" width="${round(Math.max(1, right - left))}" height="${height}"/>`;
}

const isDrawn = (table: PictureTable): boolean => numbers([...table.middleHalf, ...table.nineInTen, table.centre]).length > 0;

function tableRow(x: Scale, table: PictureTable, y: number): Markup {
  const centre = table.centre === null ? null : within(x, table.centre);
  return html`<g class="${table.primary ? 'used' : 'other'}"><text class="label" x="${EDGE}" y="${y + 9}">${table.primary ? 'Used: ' : ''}${table.name}</text>${isDrawn(table) ? null : html`<text class="tick" x="${EDGE}" y="${y + 22}">prints no spread that could be drawn</text>`}
${bar(x, table.nineInTen, y + 18, 4, 'nine')}${bar(x, table.middleHalf, y + 14, 12, 'half')}${centre === null ? null : html`<line class="centre" x1="${centre}" x2="${centre}" y1="${y + 12}" y2="${y + 28}"/>`}</g>`;
}

/** Diamond: measured; triangle: stopped at the ceiling, the true value may be higher; cross: unable, at the worst edge. */
function resultRow(x: Scale, result: PictureResult, picture: Picture, y: number): Markup {
  const middle = y + RESULT_ROW / 2 + 2;
  const label = html`<text class="label" x="${EDGE}" y="${y + 7}">${result.side === null ? 'Client' : `Client, ${result.side}`}${result.value === null ? ': unable' : ''}</text>`;
  if (result.value === null) {
    const [low, high] = x.range();
    const at = round((picture.better === 'higher' ? low : high) ?? EDGE) + (picture.better === 'higher' ? 5 : -5);
    return html`${label}<path class="unable" d="M${at - 4} ${middle - 4}l8 8m0 -8l-8 8"/>`;
  }
  const at = within(x, result.value);
  const shape = symbol(result.atLeast ? symbolTriangle : symbolDiamond, 70)() ?? '';
  const error =
    result.low === null || result.high === null
      ? null
      : html`<path class="error" d="M${within(x, result.low)} ${middle - 4}v8m0 -4H${within(x, result.high)}m0 -4v8"/>`;
  return html`${label}${error}${result.trials.map((trial) => html`<circle class="trial" cx="${within(x, trial)}" cy="${middle}" r="3"/>`)}<path class="client" transform="translate(${at} ${middle})${result.atLeast ? ' rotate(90)' : ''}" d="${shape}"/>`;
}

/** Numbers over the dashed lines, those that would overlap moved to the right. */
function markLines(x: Scale, picture: Picture, bottom: number): Markup[] {
  const sorted = [...picture.marks].sort((a, b) => a.value - b.value);
  let last = Number.NEGATIVE_INFINITY;
  return sorted.map((mark) => {
    const at = within(x, mark.value);
    last = Math.min(WIDTH - EDGE, Math.max(at, last + MARK_GAP));
    return html`<line class="mark" x1="${at}" x2="${at}" y1="${TOP - 4}" y2="${bottom}"/><text class="mark-label" text-anchor="middle" x="${round(last)}" y="11">${plainNumber(mark.value, picture.unit)}</text>`;
  });
}

function description(picture: Picture): string {
  const rows = picture.data.map(([what, value]) => `${what}: ${value}`).join('. ');
  return `${rows}. ${picture.better === 'higher' ? 'Higher' : 'Lower'} is better.`;
}

/** null where there is nothing to place. `id` must be unlike any other in the page. */
export function testChart(picture: Picture, id: string): Markup | null {
  const [low, high] = domainOf(picture);
  if (!Number.isFinite(low) || !Number.isFinite(high)) return null;
  const x = scaleLinear([low, high], [EDGE, WIDTH - EDGE]).nice(5);
  const tablesAt = TOP + picture.results.length * RESULT_ROW + 4;
  const bottom = tablesAt + picture.tables.length * TABLE_ROW;
  const unit = unitWords(picture.unit, 2);
  return html`<svg class="chart" viewBox="0 0 ${WIDTH} ${bottom + AXIS}" role="img" aria-labelledby="${id}-title ${id}-desc">
<title id="${id}-title">${picture.name}: this client and published tables</title>
<desc id="${id}-desc">${description(picture)}</desc>
${markLines(x, picture, bottom)}
${picture.tables.map((table, index) => tableRow(x, table, tablesAt + index * TABLE_ROW))}
${picture.results.map((result, index) => resultRow(x, result, picture, TOP + index * RESULT_ROW))}
<line class="axis" x1="${EDGE}" x2="${WIDTH - EDGE}" y1="${bottom + 2}" y2="${bottom + 2}"/>
${x.ticks(6).map((tick) => html`<line class="axis" x1="${round(x(tick))}" x2="${round(x(tick))}" y1="${bottom + 2}" y2="${bottom + 6}"/><text class="tick" text-anchor="middle" x="${round(x(tick))}" y="${bottom + 17}">${plainNumber(tick, picture.unit)}</text>`)}
<text class="tick" text-anchor="middle" x="${WIDTH / 2}" y="${bottom + 30}">${unit === '' ? '' : `${unit}, `}${picture.better} is better</text>
</svg>`;
}

/** What the shapes mean; once a page. */
export const CHART_LEGEND =
  'Diamond: the result (triangle: stopped at the ceiling; cross: unable; small rings: trials), with the line that measurement error leaves. Thick bar: the middle half of the people of the table; thin bar: nine in ten of them; upright line: its centre. Dashed: marks linked with falls.';
