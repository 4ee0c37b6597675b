/**
 * One test over the visits as an SVG: values over dates, the band that error around the first value can explain, what is
 * usual for age, and marks linked with falls. Shapes and words carry the meaning; colour only helps. The values stand in a
 * table beside it.
 */
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { daysBetween } from '../../change/days.ts';
import type { ResultAt, TestChange } from '../../change/types.ts';
import { html, type Markup } from '../html/markup.ts';
import { dateWords, plainNumber, unitWords } from '../view/numbers.ts';
import { labelOf, resultWords, verdictWords } from './words.ts';

const SIZE = { width: 360, height: 210, left: 44, right: 96, top: 14, bottom: 34 } as const;
const LABEL_GAP = 12;
const DATE_GAP = 46;

interface Frame {
  readonly x: (iso: string) => number;
  readonly y: (value: number) => number;
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly number[];
}

interface ErrorBand {
  readonly low: number;
  readonly high: number;
}

/** Around the value that the verdict starts from. */
function errorBand(test: TestChange): ErrorBand | null {
  if (test.mdc95 === null || test.before === null) return null;
  return { low: Math.max(0, test.before - test.mdc95), high: test.before + test.mdc95 };
}

const valuesOf = (test: TestChange): number[] => test.series.flatMap((result) => (result.value === null ? [] : [result.value]));

/** Room for the values and the error band; marks just outside are taken in, far ones stay in the text. */
function extentOf(test: TestChange): { readonly low: number; readonly high: number } {
  const band = errorBand(test);
  const core = [...valuesOf(test), ...(band === null ? [] : [band.low, band.high])];
  const [low, high] = [Math.min(...core), Math.max(...core)];
  const margin = (high - low) * 0.35 || Math.abs(high) * 0.25 || 1;
  const near = test.marks.map((mark) => mark.value).filter((value) => value >= low - margin && value <= high + margin);
  const all = [...core, ...near];
  const [bottom, top] = [Math.min(...all), Math.max(...all)];
  const pad = (top - bottom) * 0.06 || margin;
  return { low: Math.max(0, bottom - pad), high: top + pad };
}

function frameOf(test: TestChange): Frame {
  const { low, high } = extentOf(test);
  // Stands, stages and points come whole.
  const counts = test.unit.startsWith('{');
  const first = test.series[0]?.assessed ?? '';
  const days = Math.max(1, daysBetween(first, test.series.at(-1)?.assessed ?? first));
  const along = scaleLinear([0, days], [SIZE.left + 12, SIZE.width - SIZE.right - 12]);
  const up = scaleLinear([low, high], [SIZE.height - SIZE.bottom, SIZE.top]);
  return {
    x: (iso) => along(daysBetween(first, iso)),
    y: (value) => up(value),
    low,
    high,
    ticks: up.ticks(5).filter((tick) => !counts || Number.isInteger(tick)),
  };
}

const round = (value: number): number => Math.round(value * 10) / 10;

/** A horizontal band, cut to the frame; nothing where it lies outside. */
function band(frame: Frame, low: number, high: number, name: string): Markup | null {
  const [bottom, top] = [Math.max(low, frame.low), Math.min(high, frame.high)];
  if (bottom >= top) return null;
  const width = SIZE.width - SIZE.left - SIZE.right;
  return html`<rect class="${name}" x="${SIZE.left}" y="${round(frame.y(top))}" width="${width}" height="${round(frame.y(bottom) - frame.y(top))}"/>`;
}

interface Label {
  readonly at: number;
  readonly text: string;
  readonly name: string;
}

/** Labels at the right edge, moved apart so that none covers another. */
function spread(labels: readonly Label[]): Label[] {
  let floor = Number.NEGATIVE_INFINITY;
  return [...labels]
    .sort((a, b) => a.at - b.at)
    .map((label) => {
      const at = Math.max(label.at, floor);
      floor = at + LABEL_GAP;
      return { ...label, at };
    });
}

function markLines(test: TestChange, frame: Frame): { readonly lines: Markup[]; readonly labels: Label[] } {
  const values = [...new Set(test.marks.map((mark) => mark.value))].filter((value) => value >= frame.low && value <= frame.high);
  return {
    lines: values.map(
      (value) =>
        html`<line class="mark" x1="${SIZE.left}" x2="${SIZE.width - SIZE.right}" y1="${round(frame.y(value))}" y2="${round(frame.y(value))}"/>`,
    ),
    labels: values.map((value) => ({
      at: frame.y(value),
      text: `mark ${plainNumber(value, test.unit)}`,
      name: 'label mark-label',
    })),
  };
}

const sameAid = (result: ResultAt, test: TestChange): boolean => (result.aid ?? 'none') === (test.after_result.aid ?? 'none');

/** Measured: a dot, hollow where it was done with another aid than at the last visit; stopped at the ceiling: a triangle pointing on; unable: a cross on the worst edge. */
function point(result: ResultAt, test: TestChange, frame: Frame): Markup | null {
  const x = round(frame.x(result.assessed));
  if (result.value === null) {
    if (result.outcome === 'not_recorded' || result.outcome === 'declined') return null;
    const y = test.better === 'higher' ? SIZE.height - SIZE.bottom - 6 : SIZE.top + 6;
    return html`<path class="unable" d="M${x - 4} ${y - 4}l8 8m0 -8l-8 8"/>`;
  }
  const y = round(frame.y(result.value));
  return result.at_least
    ? html`<path class="point" d="M${x - 5} ${y + 4}h10l-5 -10z"/>`
    : html`<circle class="${sameAid(result, test) ? 'point' : 'point other'}" cx="${x}" cy="${y}" r="4"/>`;
}

function dateLabels(test: TestChange, frame: Frame): Markup[] {
  let last = Number.NEGATIVE_INFINITY;
  const visits = test.series.map((result) => result.assessed);
  return visits.flatMap((iso, index) => {
    const x = round(frame.x(iso));
    const crowded = x - last < DATE_GAP || (index < visits.length - 1 && frame.x(visits.at(-1) ?? iso) - x < DATE_GAP);
    if (crowded && index > 0 && index < visits.length - 1) return [];
    last = x;
    const [day, month, year] = dateWords(iso).split(' ');
    return [
      html`<text class="tick" text-anchor="middle" x="${x}" y="${SIZE.height - SIZE.bottom + 14}">${`${day} ${(month ?? '').slice(0, 3)}`}<tspan x="${x}" dy="11">${year ?? ''}</tspan></text>`,
    ];
  });
}

function valueTicks(test: TestChange, frame: Frame): Markup[] {
  return frame.ticks.map(
    (value) =>
      html`<line class="grid" x1="${SIZE.left}" x2="${SIZE.width - SIZE.right}" y1="${round(frame.y(value))}" y2="${round(frame.y(value))}"/><text class="tick" text-anchor="end" x="${SIZE.left - 6}" y="${round(frame.y(value)) + 3}">${plainNumber(value, test.unit)}</text>`,
  );
}

function description(test: TestChange): string {
  const values = test.series.map((result) => `${dateWords(result.assessed)} ${resultWords(result, test.unit)}`).join('; ');
  return `${values}. First against last: ${verdictWords(test.verdict)}; ${test.because}. ${test.better === 'higher' ? 'Higher' : 'Lower'} is better.`;
}

/** null where no visit has a number. `id` must be unlike any other in the page. */
export function changeChart(test: TestChange, id: string): Markup | null {
  if (valuesOf(test).length === 0) return null;
  const frame = frameOf(test);
  const error = errorBand(test);
  const usual = test.norm_band;
  const marks = markLines(test, frame);
  const measured = test.series.flatMap((result) =>
    result.value === null ? [] : [[frame.x(result.assessed), frame.y(result.value)] as [number, number]],
  );
  const centre =
    usual?.centre !== null && usual?.centre !== undefined && usual.centre >= frame.low && usual.centre <= frame.high
      ? usual.centre
      : null;
  const hasBand = usual !== null && (usual.low !== null || usual.high !== null);
  const worse = test.better === 'higher' ? 0 : Number.POSITIVE_INFINITY;
  const [bandLow, bandHigh] =
    test.better === 'higher'
      ? [usual?.low ?? worse, usual?.high ?? Number.POSITIVE_INFINITY]
      : [usual?.low ?? 0, usual?.high ?? worse];
  const labels = spread([
    ...marks.labels,
    ...(centre === null ? [] : [{ at: frame.y(centre), text: 'centre for age', name: 'label usual-label' }]),
  ]);
  return html`<svg viewBox="0 0 ${SIZE.width} ${SIZE.height}" role="img" aria-labelledby="${id}-title ${id}-desc">
<title id="${id}-title">${labelOf(test)} over ${test.series.length} visits</title>
<desc id="${id}-desc">${description(test)}</desc>
${hasBand ? band(frame, bandLow, bandHigh, 'usual') : null}
${error === null ? null : band(frame, error.low, error.high, 'error')}
${valueTicks(test, frame)}
${centre === null ? null : html`<line class="centre" x1="${SIZE.left}" x2="${SIZE.width - SIZE.right}" y1="${round(frame.y(centre))}" y2="${round(frame.y(centre))}"/>`}
${marks.lines}
<path class="path" d="${line()(measured) ?? ''}"/>
${test.series.map((result) => point(result, test, frame))}
${labels.map((label) => html`<text class="${label.name}" x="${SIZE.width - SIZE.right + 5}" y="${round(label.at) + 3}">${label.text}</text>`)}
${dateLabels(test, frame)}
<text class="tick" x="${SIZE.left}" y="10">${unitWords(test.unit, 2)}, ${test.better} is better</text>
</svg>`;
}
