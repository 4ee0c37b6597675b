/** Exercises drawn from the side; the person faces right, to the bench or along it. */
import type { Rung } from '../../../evidence/schema/exercise.ts';
import { add, FLOOR, type Point } from './geometry.ts';
import { ballHands, type Hands, handsAt, hangingFrom } from './hands.ts';
import {
  arrow,
  ball,
  bench,
  chair,
  circleArrow,
  FOAM_HEIGHT,
  floor,
  foam,
  line,
  longBench,
  type Mark,
  speech,
  turnArrow,
  weight,
} from './marks.ts';
import { drawPerson, headOf, type Leg, type Person, standing } from './person.ts';

/** What of a rung changes the drawing. */
export type RungLook = Pick<Rung, 'support' | 'surface' | 'vision' | 'head' | 'task' | 'direction'> & {
  readonly features: readonly string[];
};

export interface SideScene {
  readonly behind: readonly Mark[];
  readonly hip: Point;
  readonly shoulder: Point;
  readonly near: Leg;
  readonly far: Leg;
  readonly places: readonly [Point, Point];
  readonly hands?: Hands;
  readonly front: readonly Mark[];
  readonly foamAt?: readonly [number, number];
}

const HIP: Point = [100, 150];
export const SHOULDER: Point = [100, 88];
export const IN_FRONT: readonly [Point, Point] = [
  [136, 0],
  [150, 0],
];
export const BENCH_LEFT = 128;

const raised = (leg: Leg, by: number): Leg => {
  const up = (point: Point): Point => add(point, 0, -by);
  return {
    ankle: up(leg.ankle),
    ...(leg.knee === undefined ? {} : { knee: up(leg.knee) }),
    ...(leg.heel === undefined ? {} : { heel: up(leg.heel) }),
    ...(leg.toe === undefined ? {} : { toe: up(leg.toe) }),
  };
};

/** Puts the scene on foam where the rung says so, and adds hands, ball, closed eyes, head turns and a spoken task. */
export function drawn(scene: SideScene, look: RungLook): Mark {
  const lift = look.surface === 'foam' ? FOAM_HEIGHT : 0;
  const shoulder = add(scene.shoulder, 0, -lift);
  const withBall = look.task?.includes('ball') === true ? ballHands(shoulder) : null;
  const hands = scene.hands ?? withBall?.hands ?? handsAt(look.support, scene.places, hangingFrom(shoulder));
  const person: Person = {
    view: 'side',
    hip: add(scene.hip, 0, -lift),
    shoulder,
    near: { leg: raised(scene.near, lift), arm: hands.near },
    far: { leg: raised(scene.far, lift), arm: hands.far },
    eyesClosed: look.vision === 'eyes_closed',
  };
  const head = headOf(person);
  return [
    floor(),
    ...scene.behind,
    ...(lift > 0 ? [foam(...(scene.foamAt ?? ([78, 56] as const)))] : []),
    drawPerson(person),
    ...(withBall === null ? [] : [ball(withBall.ball)]),
    ...(look.head === 'turning' ? [turnArrow(head)] : []),
    ...(look.task !== null && withBall === null ? [speech(add(head, 18, -8))] : []),
    ...scene.front,
  ].join('');
}

export const UPRIGHT: Pick<SideScene, 'hip' | 'shoulder' | 'places'> = { hip: HIP, shoulder: SHOULDER, places: IN_FRONT };
const lifted: Leg = { ankle: [76, 220], heel: [70, 222], toe: [86, 236] };
export const has = (look: RungLook, feature: string): boolean => look.features.includes(feature);

export const stand = (look: RungLook): Mark =>
  drawn({ ...UPRIGHT, behind: [bench(BENCH_LEFT)], near: standing(98), far: standing(106), front: [] }, look);

export const oneLeg = (look: RungLook): Mark =>
  drawn({ ...UPRIGHT, behind: [bench(BENCH_LEFT)], near: standing(100), far: lifted, front: [] }, look);

export function ankleCircle(look: RungLook): Mark {
  const up = has(look, 'single_leg');
  const moving: Leg = up
    ? { ankle: [70, 212], heel: [64, 214], toe: [78, 230] }
    : { ankle: [72, 226], heel: [66, 228], toe: [82, FLOOR - 3] };
  return drawn(
    { ...UPRIGHT, behind: [bench(BENCH_LEFT)], near: standing(104), far: moving, front: [circleArrow([58, 222], 15)] },
    look,
  );
}

export function march(look: RungLook): Mark {
  const near: Leg = { ankle: [104, 206], toe: [122, 214], heel: [98, 212] };
  const swing = /swing/i.test(look.direction ?? '');
  const hands: Hands = {
    near: { hand: add(SHOULDER, -32, 48), grip: 'free' },
    far: { hand: add(SHOULDER, 40, 44), grip: 'free' },
  };
  const scene: SideScene = {
    ...UPRIGHT,
    behind: [bench(BENCH_LEFT + 6)],
    near,
    far: standing(96),
    front: [arrow([60, 226], [60, 190])],
  };
  return drawn(swing ? { ...scene, hands } : scene, look);
}

export function squat(look: RungLook): Mark {
  const deep = has(look, 'deep_bend');
  const hip: Point = deep ? [66, 190] : [80, 166];
  const shoulder: Point = deep ? [100, 138] : [104, 109];
  const loaded = has(look, 'loaded');
  const chest = add(shoulder, 20, 22);
  const hands: Hands = { near: { hand: add(chest, -8, 4), grip: 'free' }, far: { hand: add(chest, 8, 4), grip: 'free' } };
  const free: Hands = { near: { hand: add(shoulder, 60, 6), grip: 'free' }, far: { hand: add(shoulder, 62, 0), grip: 'free' } };
  return drawn(
    {
      behind: [bench(138), chair({ left: 14, right: 58, seat: 206 })],
      hip,
      shoulder,
      near: standing(98),
      far: standing(104),
      places: [
        [144, 0],
        [156, 0],
      ],
      ...(loaded ? { hands } : look.support === 'hands_free' ? { hands: free } : {}),
      front: [...(loaded ? [weight(add(chest, 0, -8))] : []), arrow([36, 148], [36, 184])],
    },
    look,
  );
}

function risingHands(look: RungLook, shoulder: Point, armrest: Point): Hands {
  const low = add(shoulder, 2, 62);
  if (look.support === 'both_hands_firm')
    return { near: { hand: armrest, grip: 'firm' }, far: { hand: add(armrest, 12, 0), grip: 'firm' } };
  if (look.support === 'one_hand_firm')
    return { near: { hand: armrest, grip: 'firm' }, far: { hand: add(low, 16, -4), grip: 'free' } };
  if (look.support === 'light_touch')
    return { near: { hand: add(armrest, 0, -5), grip: 'light' }, far: { hand: add(low, 16, -4), grip: 'free' } };
  if (look.support === 'hands_ready')
    return { near: { hand: add(shoulder, 64, 4), grip: 'free' }, far: { hand: add(shoulder, 66, -4), grip: 'free' } };
  return {
    near: { hand: add(shoulder, -10, 6), grip: 'free', elbow: add(shoulder, 20, 28) },
    far: { hand: add(shoulder, -16, 20), grip: 'free', elbow: add(shoulder, 14, 34) },
  };
}

export function sitToStand(look: RungLook): Mark {
  const cushion = look.support === 'both_hands_firm' && /raised/i.test(look.direction ?? '');
  const seat = 200;
  const shoulder: Point = [118, 126];
  const armrest: Point = [92, seat - 29];
  return drawn(
    {
      behind: [bench(190), chair({ left: 34, right: 88, seat, arms: true, cushion })],
      hip: [86, 176],
      shoulder,
      near: standing(110),
      far: standing(116),
      places: IN_FRONT,
      hands: risingHands(look, shoulder, armrest),
      front: [arrow([62, 120], [62, 70])],
    },
    { ...look, task: null },
  );
}

const ON_TOES: Leg = { ankle: [100, 222], heel: [94, 228], toe: [114, FLOOR - 3] };

export function heelRaise(look: RungLook): Mark {
  const one = has(look, 'single_leg');
  const far: Leg = one
    ? { ankle: [76, 206], heel: [70, 208], toe: [86, 222] }
    : { ...ON_TOES, ankle: [108, 222], heel: [102, 228], toe: [122, FLOOR - 3] };
  return drawn(
    {
      hip: [104, 134],
      shoulder: [104, 74],
      places: IN_FRONT,
      behind: [bench(BENCH_LEFT)],
      near: ON_TOES,
      far,
      front: [arrow([58, 206], [58, 166])],
    },
    look,
  );
}

export function toeRaise(look: RungLook): Mark {
  const up = (x: number): Leg => ({ ankle: [x, 234], heel: [x - 5, FLOOR - 3], toe: [x + 17, 226] });
  return drawn(
    {
      ...UPRIGHT,
      hip: [96, 148],
      shoulder: [98, 86],
      behind: [
        bench(BENCH_LEFT),
        line(
          [
            [40, 40],
            [40, FLOOR],
          ],
          3,
        ),
      ],
      near: up(96),
      far: up(104),
      front: [arrow([66, 236], [66, 212], 3)],
    },
    look,
  );
}

/** One arm out to the front, level or down to the height of a seat; the bench stays within reach of the other hand. */
export function reachForwards(look: RungLook): Mark {
  const down = has(look, 'trunk_bend');
  const shoulder: Point = down ? [118, 98] : [108, 88];
  const hands: Hands = {
    near: { hand: down ? [162, 176] : add(shoulder, 66, 0), grip: 'free' },
    far: { hand: add(shoulder, -14, 62), grip: 'free' },
  };
  const [behind, front] = down ? [longBench(), arrow([196, 130], [196, 172])] : [bench(150), arrow([150, 64], [192, 64])];
  return drawn({ ...UPRIGHT, shoulder, behind: [behind], near: standing(98), far: standing(106), hands, front: [front] }, look);
}
