/** A person made of a few joints. Near limbs are thick, far ones thin; hands tell how they hold. */
import { add, along, BODY, distance, FLOOR, jointBetween, type Point } from './geometry.ts';
import { BENCH_TOP, circle, line, type Mark } from './marks.ts';

export interface Leg {
  readonly ankle: Point;
  /** Given where the knee is not where a plain bend would put it. */
  readonly knee?: Point;
  readonly heel?: Point;
  readonly toe?: Point;
}

/** How a hand holds what is under it. */
export type Grip = 'firm' | 'light' | 'fingertip' | 'ready' | 'free';

export interface Arm {
  readonly hand: Point;
  readonly grip: Grip;
  readonly elbow?: Point;
}

export interface Person {
  readonly view: 'side' | 'behind' | 'front';
  readonly hip: Point;
  readonly shoulder: Point;
  readonly near: { readonly leg: Leg; readonly arm: Arm };
  readonly far: { readonly leg: Leg; readonly arm: Arm };
  readonly eyesClosed?: boolean;
}

const NEAR = 7;
const FAR = 4.5;
const HALF_SHOULDERS = 17;
const HALF_HIPS = 9;

function foot(leg: Leg, view: Person['view'], outward: number): Mark {
  const flat: readonly [Point, Point] =
    view === 'side' ? [add(leg.ankle, -5, 6), add(leg.ankle, 19, 6)] : [add(leg.ankle, -6, 6), add(leg.ankle, 6 + outward, 6)];
  const [heel, toe] = [leg.heel ?? flat[0], leg.toe ?? flat[1]];
  return line([heel, toe], NEAR) + line([leg.ankle, along(heel, toe, 0.25)], FAR);
}

function legMarks(hip: Point, leg: Leg, person: Person, width: number, side: 1 | -1): Mark {
  const knee = leg.knee ?? jointBetween(hip, leg.ankle, BODY.thigh, BODY.shank, side);
  const outward = person.view === 'side' ? 0 : side === 1 ? 4 : -4;
  return line([hip, knee, leg.ankle], width) + foot(leg, person.view, outward);
}

/** A filled hand grips; an open one touches; one line down is a fingertip; a gap with dashes is "ready". */
function handMark({ hand, grip }: Arm): Mark {
  if (grip === 'firm') return circle(hand, 7, '#000');
  if (grip === 'fingertip') return circle(hand, 6, '#fff') + line([add(hand, 2, 6), [hand[0] + 4, BENCH_TOP]], 3);
  if (grip === 'ready')
    return circle(hand, 6, '#fff') + line([add(hand, 0, 9), [hand[0], BENCH_TOP - 2]], 2, ' stroke-dasharray="2 4"');
  return circle(hand, 6, '#fff');
}

/**
 * Elbows point backwards from the side and outwards from front or behind, but down where a hand is held out or over something:
 * nobody lifts an elbow above the shoulder for that.
 */
function elbowSide(shoulder: Point, { hand, grip }: Arm, view: Person['view'], outwards: 1 | -1): 1 | -1 {
  const toTheRight = hand[0] >= shoulder[0];
  const down = toTheRight ? -1 : 1;
  if (view === 'side' || grip === 'ready' || grip === 'fingertip') return down;
  return outwards;
}

function armMarks(shoulder: Point, arm: Arm, width: number, side: 1 | -1): { readonly limb: Mark; readonly hand: Mark } {
  const elbow = arm.elbow ?? jointBetween(shoulder, arm.hand, BODY.upperArm, BODY.forearm, side);
  return { limb: line([shoulder, elbow, arm.hand], width), hand: handMark(arm) };
}

export const headOf = ({ hip, shoulder }: Pick<Person, 'hip' | 'shoulder'>): Point =>
  along(hip, shoulder, 1 + (BODY.neck + BODY.head) / Math.max(1, distance(hip, shoulder)));

function face(person: Person, at: Point): Mark {
  if (person.view === 'behind') return '';
  const eyes: readonly Point[] = person.view === 'side' ? [add(at, 7, -3)] : [add(at, -6, -3), add(at, 6, -3)];
  const eye = eyes.map((each) =>
    person.eyesClosed === true ? line([add(each, -4, 0), add(each, 4, 0)], 2.5) : circle(each, 1.8, '#000', 1),
  );
  const nose = person.view === 'side' ? line([add(at, 15, -2), add(at, 21, 3), add(at, 15, 5)], 2.5) : '';
  return eye.join('') + nose;
}

/** Far side first, then body, then near side, hands last of all. */
export function drawPerson(person: Person): Mark {
  const { hip, shoulder, near, far, view } = person;
  const side = view === 'side';
  const head = headOf(person);
  const nearHip = side ? hip : add(hip, HALF_HIPS, 0);
  const farHip = side ? hip : add(hip, -HALF_HIPS, 0);
  const nearShoulder = side ? shoulder : add(shoulder, HALF_SHOULDERS, 0);
  const farShoulder = side ? shoulder : add(shoulder, -HALF_SHOULDERS, 0);
  // from the side knees bend forwards, from front or behind outwards
  const farArm = armMarks(farShoulder, far.arm, side ? FAR : NEAR, elbowSide(farShoulder, far.arm, view, -1));
  const nearArm = armMarks(nearShoulder, near.arm, NEAR, elbowSide(nearShoulder, near.arm, view, 1));
  const trunk = side ? line([hip, shoulder], 9) : line([farHip, farShoulder, nearShoulder, nearHip, farHip], NEAR);
  return [
    legMarks(farHip, far.leg, person, side ? FAR : NEAR, side ? 1 : -1),
    farArm.limb,
    trunk,
    line([shoulder, along(shoulder, head, 0.4)], NEAR),
    circle(head, BODY.head, '#fff', 4),
    face(person, head),
    legMarks(nearHip, near.leg, person, NEAR, 1),
    nearArm.limb,
    farArm.hand,
    nearArm.hand,
  ].join('');
}

/** An ankle whose foot stands flat on the floor, or on something of this height. */
export const standing = (x: number, height = 0): Leg => ({ ankle: [x, FLOOR - 8 - height] });
