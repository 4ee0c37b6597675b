/**
 * The drawing of an exercise at one rung: a person made of joints, the support, chair, bench or step, and arrows for the way it
 * goes. Black on white, so that a photocopy reads like the original. No picture is stored; each is drawn from the data.
 */
import type { Exercise } from '../../../evidence/schema/exercise.ts';
import type { FIGURES } from '../../../evidence/schema/words.ts';
import { featuresOf } from '../../../plan/caps.ts';
import { escaped } from '../../html/markup.ts';
import { tandemStand, tandemWalk, thighStretch } from './beside-poses.ts';
import { sideStep, stepOut, stepUp, weightShift } from './front-poses.ts';
import { HEIGHT, WIDTH } from './geometry.ts';
import { seated } from './seated-poses.ts';
import { ankleCircle, heelRaise, march, oneLeg, type RungLook, sitToStand, squat, stand, toeRaise } from './side-poses.ts';

const POSES: Readonly<Record<(typeof FIGURES)[number], (look: RungLook) => string>> = {
  stand,
  ankle_circle: ankleCircle,
  march,
  side_step: sideStep,
  step_up: stepUp,
  squat,
  sit_to_stand: sitToStand,
  heel_raise: heelRaise,
  toe_raise: toeRaise,
  weight_shift: weightShift,
  tandem_stand: tandemStand,
  one_leg: oneLeg,
  tandem_walk: tandemWalk,
  step_out: stepOut,
  thigh_stretch: thighStretch,
};

/** The name of the rung says what no other key does: a raised seat, a towel. */
function lookOf(exercise: Exercise, level: number): RungLook | undefined {
  const rung = exercise.ladder[level - 1];
  if (rung === undefined) return undefined;
  return { ...rung, direction: rung.direction ?? rung.name, features: [...featuresOf(rung)] };
}

/** What is drawn, without the frame. Level 0 is the seated variant. */
export function figureMarks(exercise: Exercise, level: number): string {
  const look = lookOf(exercise, level);
  return look === undefined ? seated(exercise.seated_variant.figure) : POSES[exercise.figure](look);
}

/** A whole SVG element. `label` is what a screen reader says. */
export const figureSvg = (exercise: Exercise, level: number, label: string): string =>
  `<svg viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="${escaped(label)}">${figureMarks(exercise, level)}</svg>`;
