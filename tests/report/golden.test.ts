/**
 * Short golden files, one a format and example: enough of each output that a change in order, words or numbers is seen in
 * review. Version, digest and date of the run are blanked. `npx vitest run -u` writes them anew.
 */
import { describe, expect, test } from 'vitest';
import type { Bundle } from '../../src/report/fhir/r4.ts';
import { everyFormat } from './formats.ts';
import { EXAMPLES, example } from './visits.ts';

const blanked = (text: string): string =>
  text
    .replace(/footing \S+, evidence \S+ \([0-9a-f]{12,}\)/g, 'footing VERSION, evidence VERSION (DIGEST)')
    .replace(/evidence test\b/g, 'evidence VERSION')
    .replace(/20 May 2026/g, 'DATE');

/** The first screens: up to the plan, then only names and levels of exercises. */
function textOutline(text: string): string {
  const [top = '', rest = ''] = text.split(/\n(?=STARTING LEVELS)/);
  return `${top}\n${rest
    .split('\n')
    .filter((line) => /^ \[[ -]\] |^[A-Z ]+(: .*)? -+$/.test(line))
    .join('\n')}\n`;
}

const markdownOutline = (text: string): string =>
  `${text
    .split('\n')
    .filter((line) => /^#|^\||^\*\*/.test(line))
    .join('\n')}\n`;

const plain = (html: string): string => html.replace(/<[^>]*>/g, '').trim();
const htmlOutline = (text: string): string =>
  `${[...text.matchAll(/<(h[1-4]|figcaption|desc|title)[^>]*>([\s\S]*?)<\/\1>/g)].map(([, name, inner]) => `${name} ${plain(inner ?? '')}`).join('\n')}\n`;

interface AnyResource {
  readonly resourceType: string;
  readonly code?: { readonly text?: string; readonly coding?: readonly { readonly code?: string }[] };
  readonly valueQuantity?: { readonly value?: number; readonly code?: string; readonly comparator?: string };
  readonly valueBoolean?: boolean;
  readonly dataAbsentReason?: { readonly coding?: readonly { readonly code?: string }[] };
  readonly interpretation?: readonly { readonly coding?: readonly { readonly code?: string }[] }[];
}

function fhirLine(resource: AnyResource): string {
  const { valueQuantity: value } = resource;
  return [
    resource.resourceType,
    resource.code?.coding?.map((coding) => coding.code).join('/') ?? '',
    value === undefined ? (resource.valueBoolean ?? '') : `${value.comparator ?? ''}${value.value} ${value.code}`,
    resource.dataAbsentReason?.coding?.[0]?.code ?? '',
    (resource.interpretation ?? []).map((each) => each.coding?.[0]?.code).join(' '),
  ]
    .filter((part) => part !== '')
    .join(' | ');
}
const fhirOutline = (text: string): string =>
  `${((JSON.parse(text) as Bundle).entry ?? []).map(({ resource }) => fhirLine(resource as unknown as AnyResource)).join('\n')}\n`;

interface AnyRecord {
  readonly tests: readonly {
    readonly test: string;
    readonly side: string | null;
    readonly outcome: string;
    readonly value: number | null;
    readonly comparisons: readonly {
      readonly primary: boolean;
      readonly source: string;
      readonly percentile: number | null;
      readonly standing: string | null;
    }[];
  }[];
  readonly risk: { readonly level: string };
  readonly plan: readonly { readonly exercise: string; readonly start: { readonly level: number; readonly of: number } }[];
}
function jsonOutline(text: string): string {
  const record = JSON.parse(text) as AnyRecord;
  return `${[
    Object.keys(record).join(' '),
    ...record.tests.map((each) => {
      const primary = each.comparisons.find((comparison) => comparison.primary);
      return [each.test, each.side, each.outcome, each.value, primary?.source, primary?.percentile, primary?.standing]
        .map((part) => part ?? '-')
        .join(' ');
    }),
    record.risk.level,
    ...record.plan.map((each) => `${each.exercise} ${each.start.level}/${each.start.of}`),
  ].join('\n')}\n`;
}

const OUTLINES: Readonly<Record<string, readonly [string, (text: string) => string]>> = {
  text: ['report.txt', textOutline],
  json: ['record.txt', jsonOutline],
  markdown: ['report.md.txt', markdownOutline],
  html: ['page.txt', htmlOutline],
  fhir: ['fhir.txt', fhirOutline],
  'letter, text': ['letter.txt', (text) => text],
};

describe.each(EXAMPLES)('%s', (name) => {
  const formats = everyFormat(example(name));
  test.each(Object.entries(OUTLINES))('%s', async (format, [suffix, outline]) => {
    const text = blanked(outline(formats[format] ?? ''));
    expect(text.split('\n').length).toBeLessThan(200);
    await expect(text).toMatchFileSnapshot(`../golden/${name}-${suffix}`);
  });
});
