/** The setting `limits` -> a clinic's folder of one or two files, so that own limits go the way of every other own number. */
import type { EvidenceData } from '../evidence/data.ts';
import type { ClinicFolder } from '../evidence/merge.ts';
import type { Limit } from '../evidence/schema/catalogue.ts';
import { nearest } from '../intake/near.ts';
import { CannotStart } from './io.ts';
import type { OwnLimit, OwnLimits, SettingValues } from './setting-values.ts';
import type { SettingInForce } from './settings-in-force.ts';

/** Own ends take the place of the built-in ones; the reason says so. */
const withOwn = (limit: Limit | undefined, own: OwnLimit | undefined): Limit | undefined =>
  own === undefined ? limit : { ...limit, ...own, why: "the clinic's own limit" };

interface Limited {
  readonly impossible: Limit;
  readonly unusual?: Limit | undefined;
}

function limited<Definition extends Limited>(definition: Definition, own: OwnLimits): Definition {
  const unusual = withOwn(definition.unusual, own.unusual);
  return {
    ...definition,
    impossible: withOwn(definition.impossible, own.impossible) ?? definition.impossible,
    ...(unusual === undefined ? {} : { unusual }),
  };
}

/** @throws CannotStart where a limit is set for something that is no test or field with limits. */
export function ownLimitsFolder(
  base: Pick<EvidenceData, 'tests' | 'fields'>,
  setting: SettingInForce<NonNullable<SettingValues['limits']>>,
): ClinicFolder {
  const ids = [...base.tests.map(({ id }) => id), ...base.fields.map(({ field }) => field)];
  const strange = Object.keys(setting.value).find((id) => !ids.includes(id));
  if (strange !== undefined) {
    const near = nearest(strange, ids);
    throw new CannotStart(
      `${setting.from}: limits: there is no test or field "${strange}"${near === undefined ? '' : `; write ${near} instead`}`,
    );
  }
  const own = (id: string): OwnLimits[] => (setting.value[id] === undefined ? [] : [setting.value[id]]);
  const tests = base.tests.flatMap((test) => own(test.id).map((each) => limited(test, each)));
  const fields = base.fields.flatMap((field) => own(field.field).map((each) => limited(field, each)));
  return {
    name: `own limits (${setting.from})`,
    // JSON is YAML.
    files: [
      ...(tests.length === 0 ? [] : [{ path: 'tests.yaml', text: JSON.stringify({ tests }) }]),
      ...(fields.length === 0 ? [] : [{ path: 'fields.yaml', text: JSON.stringify({ fields }) }]),
    ],
  };
}
