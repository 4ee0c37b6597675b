/** Heel-to-toe exercises beside a long bench, and the thigh stretch, drawn from the side like those of side-poses.ts. */
import { add, FLOOR, type Point } from './geometry.ts';
import { handsAt, hangingFrom } from './hands.ts';
import { arrow, bench, chair, line, longBench, type Mark } from './marks.ts';
import { standing } from './person.ts';
import { BENCH_LEFT, drawn, has, IN_FRONT, type RungLook, SHOULDER, type SideScene, UPRIGHT } from './side-poses.ts';

/** Side-on to a long bench: it stands behind the person on paper, and a hand can lie on it in front and behind. */
const BESIDE: readonly [Point, Point] = [
  [132, 0],
  [76, 0],
];
const HEEL_TO_TOE: Pick<SideScene, 'hip' | 'shoulder' | 'near' | 'far' | 'places'> = {
  hip: [106, 150],
  shoulder: [106, 88],
  near: { ankle: [119, FLOOR - 8] },
  far: { ankle: [93, FLOOR - 8] },
  places: BESIDE,
};

export const tandemStand = (look: RungLook): Mark =>
  drawn({ ...HEEL_TO_TOE, behind: [longBench()], front: [], foamAt: [80, 68] }, look);

export function tandemWalk(look: RungLook): Mark {
  if (look.direction === 'on the spot')
    return drawn(
      {
        ...HEEL_TO_TOE,
        hip: [90, 150],
        shoulder: [92, 88],
        near: { ankle: [103, FLOOR - 8] },
        far: { ankle: [77, FLOOR - 8] },
        places: IN_FRONT,
        behind: [bench(BENCH_LEFT)],
        front: [arrow([44, 222], [66, 222], 3)],
      },
      look,
    );
  const back = has(look, 'backward');
  const way = back ? arrow([62, 222], [22, 222]) : arrow([160, 222], [206, 222]);
  return drawn({ ...HEEL_TO_TOE, behind: [longBench()], front: [way] }, look);
}

export function thighStretch(look: RungLook): Mark {
  if (look.support === 'both_hands_firm')
    return drawn(
      {
        ...UPRIGHT,
        behind: [bench(BENCH_LEFT), chair({ left: 22, right: 76, seat: 196 })],
        near: standing(102),
        far: { knee: [92, 192], ankle: [50, 188], heel: [44, 184], toe: [38, 190] },
        front: [],
      },
      look,
    );
  const towel = look.support === 'one_hand_firm' && /towel/i.test(look.direction ?? '');
  const ankle: Point = towel ? [66, 172] : [78, 154];
  const holding: Point = towel ? [80, 142] : [80, 150];
  const hands = handsAt(look.support, IN_FRONT, hangingFrom(SHOULDER));
  return drawn(
    {
      ...UPRIGHT,
      behind: [bench(BENCH_LEFT)],
      near: { knee: [102, 196], ankle, heel: add(ankle, 4, -5), toe: add(ankle, -14, 6) },
      far: standing(104),
      hands: { near: { hand: holding, grip: 'firm' }, far: hands.near },
      front: towel ? [line([holding, ankle], 4, ' stroke-dasharray="3 5"')] : [],
    },
    look,
  );
}
