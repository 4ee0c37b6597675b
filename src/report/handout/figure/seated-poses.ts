/** Seated variants: on a firm chair, both hands on the seat unless the exercise needs one. */
import type { SEATED_FIGURES } from '../../../evidence/schema/words.ts';
import { add, FLOOR, type Point } from './geometry.ts';
import { arrow, chair, chairFromFront, circleArrow, floor, type Mark, step } from './marks.ts';
import { type Arm, drawPerson, type Leg, type Person, standing } from './person.ts';

export type SeatedFigure = (typeof SEATED_FIGURES)[number];

const HIP: Point = [84, 182];
const SHOULDER: Point = [86, 120];
const KNEE: Point = [130, 186];
const ON_SEAT: Arm = { hand: [100, 192], grip: 'firm' };
const flat: Leg = { knee: KNEE, ankle: [130, FLOOR - 8] };
const behind: Leg = { knee: add(KNEE, 6, 0), ankle: [138, FLOOR - 8] };

/** What each does with the near leg, the far leg, and what is drawn besides. */
const LEGS: Readonly<Record<string, { readonly near: Leg; readonly far?: Leg; readonly more?: readonly Mark[] }>> = {
  sit: { near: flat },
  foot_lift: { near: { knee: [130, 178], ankle: [138, 220] }, more: [arrow([176, 236], [176, 208])] },
  circle: { near: { knee: [130, 178], ankle: [142, 218] }, more: [circleArrow([162, 226], 14)] },
  march: { near: { knee: [126, 162], ankle: [130, 208] }, more: [arrow([172, 214], [172, 178])] },
  press: { near: flat, more: [arrow([160, 196], [160, 234]), arrow([178, 196], [178, 234])] },
  knee_straight: {
    near: { knee: KNEE, ankle: [176, 182], heel: [178, 188], toe: [186, 166] },
    more: [arrow([196, 222], [196, 190])],
  },
  heels_up: {
    near: { knee: add(KNEE, 0, -6), ankle: [130, 222], heel: [124, 228], toe: [144, FLOOR - 3] },
    far: { knee: add(KNEE, 8, -6), ankle: [140, 222], heel: [134, 228], toe: [154, FLOOR - 3] },
    more: [arrow([176, 236], [176, 208])],
  },
  toes_up: {
    near: { knee: KNEE, ankle: [130, 234], heel: [125, FLOOR - 3], toe: [148, 226] },
    far: { knee: add(KNEE, 8, 0), ankle: [140, 234], heel: [135, FLOOR - 3], toe: [158, 226] },
    more: [arrow([180, 238], [180, 212])],
  },
  heel_to_toe: { near: { ankle: [152, FLOOR - 8], knee: [140, 186] }, far: { ankle: [126, FLOOR - 8], knee: [126, 186] } },
  front_tap: { near: { ankle: [168, FLOOR - 10], knee: [138, 190] }, more: [arrow([192, 226], [222, 226], 3)] },
  foot_back: { near: { ankle: [92, 232], knee: [116, 206], heel: [86, 228], toe: [104, FLOOR - 3] }, far: behind },
};

function fromTheSide(figure: string): Mark {
  const legs = LEGS[figure] ?? { near: flat };
  const person: Person = {
    view: 'side',
    hip: HIP,
    shoulder: SHOULDER,
    near: { leg: legs.near, arm: ON_SEAT },
    far: { leg: legs.far ?? behind, arm: { hand: [112, 192], grip: 'firm' } },
  };
  return [floor(), chair({ left: 56, right: 122, seat: 194 }), drawPerson(person), ...(legs.more ?? [])].join('');
}

/** To the side: seen from the front, because from the side it could not be told from a step to the front. */
function fromTheFront(figure: SeatedFigure): Mark {
  const reach = figure === 'reach';
  const onStep = figure === 'side_step_up';
  const out: Leg = onStep ? { knee: [158, 190], ankle: [176, FLOOR - 8 - 14] } : { knee: [152, 192], ankle: [176, FLOOR - 8] };
  const person: Person = {
    view: 'front',
    hip: [120, 182],
    shoulder: reach ? [128, 122] : [120, 120],
    near: {
      leg: reach ? { knee: [136, 192], ankle: [138, FLOOR - 8] } : out,
      arm: reach ? { hand: [208, 112], grip: 'free' } : { hand: [150, 186], grip: 'firm' },
    },
    far: { leg: { ...standing(102), knee: [104, 192] }, arm: { hand: [90, 186], grip: 'firm' } },
  };
  return [
    floor(),
    chairFromFront(),
    ...(onStep ? [step(156, 50, 14)] : []),
    drawPerson(person),
    reach ? arrow([186, 84], [222, 84]) : arrow([196, 212], [226, 212], 3),
  ].join('');
}

const FROM_FRONT: readonly SeatedFigure[] = ['reach', 'side_tap', 'side_step_up'];

export const seated = (figure: SeatedFigure): Mark => (FROM_FRONT.includes(figure) ? fromTheFront(figure) : fromTheSide(figure));
