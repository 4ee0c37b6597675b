/** The tests: a table to run an eye down, then a picture and the detail of each. */
import type { TestMark, TestView } from '../view/types.ts';
import type { VisitView } from '../view/visit.ts';
import { html, type Markup } from './markup.ts';
import { cited, definitions, wideTable } from './parts.ts';
import { CHART_LEGEND, testChart } from './test-chart.ts';

const SIGNS: Readonly<Record<TestMark, string>> = {
  linked: '! linked with falls',
  unclear: '? close to a mark',
  not_tested: '– not tested',
  none: '',
};

function row(test: TestView): Markup {
  return html`<tr><th scope="row">${test.label}</th><td>${test.result}</td><td>${test.standing}</td><td class="sign ${test.mark}">${SIGNS[test.mark]}</td><td>${test.place === null ? '' : cited(test.place)}</td></tr>
`;
}

const summary = ({ tests, ref }: VisitView): Markup =>
  wideTable(
    `Results of the tests of ${ref}`,
    html`<table><thead><tr><th scope="col">Test</th><th scope="col">Result</th><th scope="col">For age and sex</th><th scope="col">Falls</th><th scope="col">Place and source</th></tr></thead><tbody>
${tests.map(row)}</tbody></table>`,
  );

function figure(picture: VisitView['pictures'][number], id: string): Markup | null {
  const chart = testChart(picture, id);
  if (chart === null) return null;
  return html`<figure><figcaption>${picture.name}</figcaption>${chart}<details class="small"><summary>Numbers of the picture</summary><table><thead><tr><th scope="col">What</th><th scope="col">Value</th></tr></thead><tbody>${picture.data.map(([what, value]) => html`<tr><th scope="row">${what}</th><td>${value}</td></tr>`)}</tbody></table></details></figure>
`;
}

function detail(test: TestView): Markup {
  return html`<h3>${test.label}: ${test.result}</h3>${definitions([
    ['Reason', test.reason === null ? [] : [test.reason]],
    ['Trials', test.trials === null ? [] : [test.trials]],
    ['Place', test.place === null ? [] : [cited(test.place)]],
    ['Marks', [...test.marks.map(cited), ...(test.otherMarks === null ? [] : [test.otherMarks])]],
    ['Error', test.error === null ? [] : [cited(test.error)]],
    ['Note', test.notes],
  ])}`;
}

export function testsBody(view: VisitView, prefix: string): Markup {
  if (view.tests.length === 0) return html`<p>No test was recorded.</p>`;
  const figures = view.pictures
    .map((picture, index) => figure(picture, `${prefix}chart-${index + 1}`))
    .filter((each) => each !== null);
  return html`${summary(view)}
${figures.length === 0 ? null : html`<p class="small soft">${CHART_LEGEND}</p><div class="charts">${figures}</div>`}
${view.tests.map(detail)}`;
}
