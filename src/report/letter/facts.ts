/** What decides urgency, in the order in which falls services ask for it; what was not recorded is said to be so. */
import type { Assessment } from '../../assessment.ts';
import type { FieldValue } from '../../session.ts';
import { capitalised, listed } from '../view/sentences.ts';

type Recorded = NonNullable<Assessment['recorded']>;

const answered = (recorded: Recorded, path: string): FieldValue | undefined => recorded[path];

interface YesNo {
  readonly path: string;
  readonly yes: string;
  readonly no: string;
  readonly name: string;
}

const FALL_FACTS: readonly YesNo[] = [
  {
    path: 'history.fall_injury',
    yes: 'an injury that needed a doctor',
    no: 'no injury that needed a doctor',
    name: 'fall injury',
  },
  {
    path: 'history.unable_to_rise',
    yes: 'could not get up afterwards',
    no: 'got up afterwards',
    name: 'getting up after a fall',
  },
  {
    path: 'history.loss_of_consciousness',
    yes: 'loss of consciousness',
    no: 'no loss of consciousness',
    name: 'loss of consciousness',
  },
];
const BONE_FACTS: readonly YesNo[] = [
  { path: 'health.osteoporosis', yes: 'osteoporosis recorded', no: 'no osteoporosis recorded', name: 'osteoporosis' },
  {
    path: 'health.vertebral_fracture',
    yes: 'a fracture of the spine',
    no: 'no fracture of the spine',
    name: 'fracture of the spine',
  },
];

function yesNo(recorded: Recorded, facts: readonly YesNo[]): { said: string[]; missing: string[] } {
  const said: string[] = [];
  const missing: string[] = [];
  for (const { path, yes, no, name } of facts) {
    const answer = answered(recorded, path);
    if (answer === 'yes') said.push(yes);
    else if (answer === 'no') said.push(no);
    else missing.push(name);
  }
  return { said, missing };
}

function fallsWords(recorded: Recorded): string {
  const falls = answered(recorded, 'history.falls_past_year');
  if (falls === 0) return 'no fall in the past year';
  if (falls === 1) return 'one fall in the past year';
  if (falls === 2) return 'two or more falls in the past year';
  return typeof falls === 'number' ? `${falls} falls in the past year` : 'falls in the past year not recorded';
}

function pressure(recorded: Recorded, place: string): string | null {
  const systolic = answered(recorded, `vitals.bp_${place}_systolic`);
  const diastolic = answered(recorded, `vitals.bp_${place}_diastolic`);
  return systolic === undefined || diastolic === undefined ? null : `${systolic}/${diastolic}`;
}

function vitalSentences(recorded: Recorded): { said: string[]; missing: string[] } {
  const [lying, standing] = [pressure(recorded, 'lying'), pressure(recorded, 'standing')];
  const rest = answered(recorded, 'vitals.spo2_rest');
  const lowest = answered(recorded, 'vitals.spo2_lowest');
  const flow = answered(recorded, 'vitals.oxygen_flow');
  const oxygen = flow === undefined ? '' : ` on ${flow} l/min of oxygen`;
  return {
    said: [
      ...(lying === null || standing === null ? [] : [`Blood pressure ${lying} mmHg lying, ${standing} mmHg standing.`]),
      ...(rest === undefined
        ? []
        : [
            `Oxygen saturation ${rest} % at rest${oxygen}${lowest === undefined ? '' : `, ${lowest} % at the lowest on effort`}.`,
          ]),
    ],
    missing: [
      ...(lying === null || standing === null ? ['lying and standing blood pressure'] : []),
      ...(rest === undefined ? ['oxygen saturation'] : []),
    ],
  };
}

function steroidWords(recorded: Recorded): string[] {
  const [dose, months] = [answered(recorded, 'health.oral_steroid.daily_mg'), answered(recorded, 'health.oral_steroid.months')];
  const taken = answered(recorded, 'health.oral_steroid');
  if (taken === 'no') return ['no steroid tablets'];
  if (taken !== 'yes') return [];
  const long = months === undefined ? '' : ` for ${months} months`;
  return [dose === undefined ? 'steroid tablets' : `steroid tablets ${dose} mg a day${long} (prednisolone equivalent)`];
}

/** Sentences: the first on falls, the last on what was not recorded. */
export function factsOf({ recorded = {} }: Assessment): string[] {
  const falls = yesNo(recorded, FALL_FACTS);
  const bones = yesNo(recorded, BONE_FACTS);
  const vitals = vitalSentences(recorded);
  const bone = [...steroidWords(recorded), ...bones.said];
  const none = answered(recorded, 'history.falls_past_year') === 0;
  const shown = none ? falls.said.filter((fact) => fact === 'loss of consciousness') : falls.said;
  const missing = [...(none ? [] : falls.missing), ...vitals.missing, ...bones.missing];
  return [
    `${capitalised([fallsWords(recorded), ...shown].join('; '))}.`,
    ...vitals.said,
    ...(bone.length === 0 ? [] : [`Bones: ${bone.join('; ')}.`]),
    ...(missing.length === 0 ? [] : [`Not known: ${listed(missing)}.`]),
  ];
}
