/** A ladder of rungs with the starting rung filled: the higher, the harder. The level stands in words beside it. */
import { scaleBand } from 'd3-scale';
import { html, type Markup } from './markup.ts';

const WIDTH = 64;
const HEIGHT = 54;

/** `level` from 1; 0 = seated variant or held, nothing is filled. */
export function ladder(level: number, of: number, name: string, id: string): Markup {
  const rungs = Array.from({ length: of }, (_, index) => index + 1);
  const x = scaleBand(rungs, [0, WIDTH]).paddingInner(0.18);
  const step = HEIGHT / of;
  const bars = rungs.map((rung) => {
    const height = Math.round(rung * step * 10) / 10;
    const left = Math.round((x(rung) ?? 0) * 10) / 10;
    return html`<rect class="${rung === level ? 'start' : 'rung'}" x="${left}" y="${Math.round((HEIGHT - height) * 10) / 10}" width="${Math.round(x.bandwidth() * 10) / 10}" height="${height}"/>`;
  });
  const words = level === 0 ? `${name}: not on the ladder today (${of} levels)` : `${name}: starts at level ${level} of ${of}`;
  return html`<svg class="ladder" viewBox="0 0 ${WIDTH} ${HEIGHT + 2}" role="img" aria-labelledby="${id}"><title id="${id}">${words}</title>${bars}</svg>`;
}
