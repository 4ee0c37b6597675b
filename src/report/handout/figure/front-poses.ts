/** Exercises to the side, drawn from behind a person who faces a long bench, with the ways of the feet in a small plan beside it. */
import { add, type Point } from './geometry.ts';
import { type Hands, handsAt } from './hands.ts';
import { arrow, ball, circle, FOAM_HEIGHT, floor, foam, line, longBench, type Mark, speech, step } from './marks.ts';
import { drawPerson, headOf, type Leg, type Person, standing } from './person.ts';
import { type RungLook, reachForwards } from './side-poses.ts';

interface BehindScene {
  readonly hip: Point;
  readonly shoulder: Point;
  readonly near: Leg;
  readonly far: Leg;
  readonly hands?: Hands;
  readonly under: readonly Mark[];
  readonly over: readonly Mark[];
}

function drawn(scene: BehindScene, look: RungLook): Mark {
  const [x, y] = scene.shoulder;
  const withBall = look.task?.includes('ball') === true;
  const hanging: readonly [Point, Point] = [
    [x + 34, y + 62],
    [x - 34, y + 62],
  ];
  // the ball passes in front of the chest, so it is drawn over the shoulder, where it can be seen from behind
  const hands: Hands = withBall
    ? { near: { hand: [x + 44, y + 28], grip: 'free' }, far: { hand: [x - 44, y + 28], grip: 'free' } }
    : (scene.hands ??
      handsAt(
        look.support,
        [
          [x + 56, 0],
          [x - 56, 0],
        ],
        hanging,
      ));
  const person: Person = {
    view: 'behind',
    hip: scene.hip,
    shoulder: scene.shoulder,
    near: { leg: scene.near, arm: hands.near },
    far: { leg: scene.far, arm: hands.far },
  };
  return [
    floor(),
    longBench(),
    ...scene.under,
    drawPerson(person),
    ...(withBall ? [ball([x + 50, y + 12])] : []),
    ...(look.task !== null && !withBall ? [speech(add(headOf(person), 18, -8))] : []),
    ...scene.over,
  ].join('');
}

export function sideStep(look: RungLook): Mark {
  const fast = look.features.includes('fast');
  return drawn(
    {
      hip: [112, 152],
      shoulder: [110, 90],
      near: standing(150),
      far: standing(98),
      under: [],
      over: [arrow([168, 226], [212, 226]), ...(fast ? [arrow([168, 208], [212, 208])] : [])],
    },
    look,
  );
}

/** Heights of the step on paper: low, middle, high. */
function stepHeight({ features }: RungLook): number {
  if (features.includes('high_step')) return 42;
  return features.includes('step_height') ? 28 : 14;
}

export function stepUp(look: RungLook): Mark {
  const height = stepHeight(look);
  return drawn(
    {
      hip: [118, 150],
      shoulder: [116, 88],
      near: standing(152, height),
      far: standing(98),
      under: [step(132, 62, height)],
      over: [arrow([210, 214], [210, 168])],
    },
    look,
  );
}

export function weightShift(look: RungLook): Mark {
  const ways = look.direction ?? '';
  if (ways.startsWith('forwards')) return reachForwards(look);
  const lift = look.surface === 'foam' ? FOAM_HEIGHT : 0;
  const hip: Point = [130, 152 - lift];
  const shoulder: Point = [136, 90 - lift];
  const across: Hands = {
    near: { hand: add(shoulder, -44, 12), grip: 'free' },
    far: { hand: add(shoulder, -34, 62), grip: 'free' },
  };
  return drawn(
    {
      hip,
      shoulder,
      near: standing(146, lift),
      far: standing(98, lift),
      ...(ways.includes('each side') ? { hands: across } : {}),
      under: lift > 0 ? [foam(76, 96)] : [],
      over: [...(ways.includes('front') ? [plan(look)] : []), arrow([66, 214], [30, 214]), arrow([178, 214], [214, 214])],
    },
    look,
  );
}

/** Two feet from above and the ways they go: up the page is to the front. */
function plan(look: RungLook): Mark {
  const centre: Point = [40, 52];
  const ways = look.direction ?? '';
  const feet = [-7, 7].map((dx) => `<ellipse cx="${centre[0] + dx}" cy="${centre[1]}" rx="5" ry="11" fill="#000"/>`);
  return [
    circle(centre, 36, '#fff', 2),
    ...feet,
    ...(ways.includes('side to side') ? [arrow(add(centre, -15, 0), add(centre, -32, 0), 3)] : []),
    ...(ways.includes('side') || ways.includes('turn') ? [arrow(add(centre, 15, 0), add(centre, 32, 0), 3)] : []),
    ...(ways.includes('front') ? [arrow(add(centre, 0, -13), add(centre, 0, -32), 3)] : []),
    ...(ways.includes('back') ? [arrow(add(centre, 0, 13), add(centre, 0, 32), 3)] : []),
    ...(ways.includes('turn')
      ? [
          line([add(centre, -4, -22), add(centre, 10, -20), add(centre, 18, -10)], 2.5),
          line([add(centre, 9, -12), add(centre, 18, -9), add(centre, 20, -19)], 2.5),
        ]
      : []),
  ].join('');
}

export const stepOut = (look: RungLook): Mark =>
  drawn(
    {
      hip: [118, 154],
      shoulder: [116, 92],
      near: standing(160),
      far: standing(104),
      under: [],
      over: [plan(look), arrow([178, 226], [214, 226]), arrow([214, 208], [178, 208])],
    },
    look,
  );
