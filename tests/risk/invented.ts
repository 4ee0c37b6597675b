/** A small invented pathway, to ask the engine what the published ones do not. Nothing in it is clinical. */
import { type Pathway, PathwayFile } from '../../src/evidence/schema/pathway.ts';

const OWN = { own_rule: true, note: 'invented' };
const READ = { source: 'alpha-2020', location: 'Figure 1', status: 'full-text' };

type Raw = Record<string, unknown>;

/** An item that is read from the field `x.<id>`, whose text values are its own values. */
export const item = (id: string, over: Raw = {}): Raw => {
  const values = (over.values as string[] | undefined) ?? ['no', 'yes'];
  return {
    id,
    question: `Is it ${id}?`,
    label: id,
    kind: 'question',
    values,
    from: values.map((value) => ({ when: { field: `x.${id}`, is: value }, values: [value] })),
    basis: READ,
    ...over,
  };
};

export const step = (id: string, condition: Raw, yes: Raw, no: Raw): Raw => ({
  id,
  question: `Does ${id} hold?`,
  condition,
  yes,
  no,
  basis: READ,
});

const level = (id: string, label: string): Raw => ({
  id,
  label,
  meaning: label,
  actions: [
    { text: `${label}: first action`, request: `${label}: please look`, basis: READ },
    { text: `${label}: second action`, basis: OWN },
  ],
  follow_up: { text: `${label}: come back`, within_days: id === 'low' ? 300 : 30, basis: READ },
});

export const pathway = (over: Raw): Pathway =>
  PathwayFile.parse({
    id: 'invented',
    name: 'Invented',
    source: 'alpha-2020',
    kind: 'two_level',
    items: [item('a')],
    steps: [step('s', { item: 'a' }, { level: 'high' }, { level: 'low' })],
    levels: [level('low', 'Low'), level('high', 'High')],
    ...over,
  });
