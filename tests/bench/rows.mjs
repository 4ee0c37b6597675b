// An invented cohort of 12 columns, the same rows every time: `node rows.mjs ROWS DECIMALS FILE`. Times and speeds are as a
// stopwatch gives them, to a tenth (DECIMALS 1) or a hundredth of a second (DECIMALS 2).
import { once } from 'node:events';
import { createWriteStream } from 'node:fs';

const [rows, decimals, file] = [Number(process.argv[2]), Number(process.argv[3]), process.argv[4]];

let state = 12345;
/** 0 to 1; a linear congruential generator, so that the file is the same everywhere. */
function random() {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
  return state / 2 ** 32;
}
/** About normal, mean 0 and SD 1: the sum of six. */
function spread() {
  let sum = 0;
  for (let draw = 0; draw < 6; draw += 1) sum += random();
  return (sum - 3) / Math.SQRT1_2;
}
const between = (low, high) => low + Math.floor(random() * (high - low + 1));
const answer = (yes, blank = 0) => (random() < yes ? 'yes' : random() < blank ? '' : 'no');

function row(number) {
  const age = between(60, 94);
  const frail = spread();
  const slower = (age - 75) / 5;
  return [
    `R-${number}`,
    random() < 0.6 ? 'female' : 'male',
    age,
    `2026-0${between(1, 4)}-${between(10, 27)}`,
    random() < 0.6 ? 0 : between(1, 3),
    answer(0.4),
    answer(0.3, 0.1),
    between(1, 6),
    Math.max(4, 11 + 3 * frail + slower).toFixed(decimals),
    Math.max(0.2, 1 - 0.2 * frail - 0.05 * slower).toFixed(decimals + 1),
    Math.max(4, 13 + 3 * frail + spread()).toFixed(decimals),
    Math.max(0, Math.min(100, 75 - 15 * frail)).toFixed(0),
  ].join(',');
}

const headings = [
  ...['ref', 'sex', 'age', 'assessed'],
  ...['falls_past_year', 'feels_unsteady', 'worries_about_falling', 'clinical_frailty_scale'],
  ...['timed_up_and_go', 'gait_speed_usual', 'five_times_sit_to_stand', 'balance_confidence'],
];
const out = createWriteStream(file);
out.write(`${headings.join(',')}\n`);
const AT_ONCE = 10_000;
for (let first = 1; first <= rows; first += AT_ONCE) {
  const count = Math.min(AT_ONCE, rows - first + 1);
  const piece = Array.from({ length: count }, (_, index) => `${row(first + index)}\n`).join('');
  if (!out.write(piece)) await once(out, 'drain');
}
out.end();
await once(out, 'finish');
