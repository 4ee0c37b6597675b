/** Commented skeletons for `norms new`: every key a table can have, with what belongs there, and nothing filled in that is not known. */
import { withEditorLine } from './json-schemas.ts';
import type { TestDefinition } from './schema/catalogue.ts';

/** What differs between the kinds of tests: which protocol keys make sense. */
function protocolLines(test: TestDefinition): string[] {
  return [
    '  trials_rule: unknown      # best | mean | first: which trial the table reports; unknown where the source does not say',
    '  # trials: 3               # how many',
    ...(test.kind === 'time' && test.better === 'higher' ? ['  # ceiling: 30             # the watch was stopped here (s)'] : []),
    ...(test.course
      ? [
          '  # pace: usual             # usual | fast',
          '  # distance_m: 4           # timed course in metres',
          '  # start: moving           # standing | moving',
        ]
      : []),
    ...(/sit|chair/.test(test.id)
      ? [
          '  # watch_stop: standing    # standing | sitting',
          '  # arms: crossed           # crossed | allowed',
          '  # chair_cm: 43',
        ]
      : []),
    '  # aid_allowed: false',
    '  # note: ""                # anything else about how it was done',
  ];
}

/**
 * `tables/<test>/<source>.yaml`. It does not pass `norms check` until what is missing is filled in; that is its purpose.
 */
export function tableSkeleton(source: string, test: TestDefinition): string {
  const lines = [
    `# ${test.name}: (say in one sentence whose values these are).`,
    '# Rules for the rows: norms/README.md. Then: footing norms check FOLDER, and footing norms show SOURCE beside the paper.',
    `source: ${source}`,
    `test: ${test.id}`,
    `unit: "${test.unit}"`,
    'status:                     # full-text | computed | abstract | secondary | memory: how YOU read the numbers',
    'location: ""                # table, figure or page of the paper, such as "Table 2, p. 114"',
    'population:',
    '  description: ""           # who was measured, where, how they were found',
    '  kind:                     # general | healthy | clinical | at_risk | athletic; the last three never give a standing',
    '  country: []               # two capitals each, such as [NO]; empty where several or not said',
    '  setting: community        # community | residential_care | hospital | mixed',
    'n:                          # people in the table; null where it is not said',
    'protocol:',
    ...protocolLines(test),
    'notes: []                   # what the reader of a report must know, one short sentence each',
    '# remarks: ""               # for reviewers only',
    'parts:                      # bands that overlap (all ages beside decades) go into parts of their own',
    '  - id: by_sex_and_age',
    '    location: ""            # where exactly this part stands',
    '    # gaps: ["60-64: not printed"]   # holes between the bands, each with its reason',
    '    rows:',
    '      # One line a printed row. Age in completed years; age_max: null means "and over".',
    '      # Write what is printed and nothing else:',
    '      #   percentiles: {p5: , p25: , p50: , p75: , p95: }       percentiles of the number itself',
    '      #   performance_percentiles: {p5: , p50: }                where p5 is the worst performance',
    '      #   mean: , sd:      mean: , mean_ci95: [ , ]      median: , range: [ , ]',
    "      #   worse_than_average: {above: }                         the source's own limit",
    '      #   shares: {marks: [ , ], counts: [ , , ]}               people between marks, worst group first',
    '      - {sex: female, age_min: FROM, age_max: TO, n: , mean: , sd: }',
    '      - {sex: male, age_min: FROM, age_max: TO, n: , mean: , sd: }',
  ];
  return withEditorLine(`tables/${test.id}/${source}.yaml`, `${lines.join('\n')}\n`);
}

/** The lines of one source for `sources.yaml`, set in under `sources:`. */
export function sourceSkeleton(source: string): string {
  return [
    `  ${source}:`,
    '    citation: ""              # Authors. Title. Journal. Year;volume(issue):pages.',
    '    doi: null                 # 10.xxxx/..., or null where there is none',
    '    open_access: unknown      # true | false | unknown',
    '    # note: ""                # what of the citation you have not seen yourself',
    '',
  ].join('\n');
}

export const newSourcesFile = (source: string): string =>
  withEditorLine('sources.yaml', `# Papers of the clinic's own tables, one entry an id.\nsources:\n${sourceSkeleton(source)}`);

/** `defaults.yaml` of a clinic: its own table first, the built-in order after it. */
export const newDefaultsFile = (source: string, test: string): string =>
  withEditorLine(
    'defaults.yaml',
    `# Tables named here go before the built-in order of that test; without an entry a table is only shown beside.\ntests:\n  ${test}:\n    tables:\n      - {source: ${source}}   # why: "..." gives a short reason, shown in reports\n`,
  );
