/** The page for the client as a Word file, so that a professional can change a word before printing. Loaded only when asked for. */
import {
  BorderStyle,
  Document,
  HeadingLevel,
  ImageRun,
  Packer,
  PageOrientation,
  Paragraph,
  Table,
  TableCell,
  TableRow,
  TextRun,
  WidthType,
} from 'docx';
import { figureMarks } from './figure/figure.ts';
import { HEIGHT, WIDTH } from './figure/geometry.ts';
import { figurePng } from './figure/raster.ts';
import type { Paper } from './style.ts';
import type { HandoutExercise, HandoutSectionView, HandoutView, TickRow } from './types.ts';

/** Half points: 32 is 16 points, the least of large print. */
const TEXT_SIZE = 32;
const FIGURE_WIDTH = 120;
/** Twentieths of a point. */
const PAPERS: Readonly<Record<Paper, { readonly width: number; readonly height: number }>> = {
  a4: { width: 11906, height: 16838 },
  letter: { width: 12240, height: 15840 },
};
const MARGIN = 720;

const heading = (text: string, level: (typeof HeadingLevel)[keyof typeof HeadingLevel]): Paragraph =>
  new Paragraph({ text, heading: level, keepNext: true, spacing: { before: 160, after: 60 } });
const plain = (text: string, { bold = false, keepNext = false } = {}): Paragraph =>
  new Paragraph({ keepNext, children: [new TextRun({ text, bold })], spacing: { after: 40 } });
/** Stays with what follows, so that no exercise is torn apart. */
const kept = (text: string, bold = false): Paragraph => plain(text, { bold, keepNext: true });
const bullet = (text: string): Paragraph => new Paragraph({ text, bullet: { level: 0 } });

const section = ({ title, lines }: HandoutSectionView): Paragraph[] => [
  heading(title, HeadingLevel.HEADING_2),
  ...lines.map(bullet),
];

function drawing({ exercise, level, drawing: words }: HandoutExercise): Paragraph {
  return new Paragraph({
    keepNext: true,
    children: [
      new ImageRun({
        type: 'png',
        data: figurePng(figureMarks(exercise, level)),
        transformation: { width: FIGURE_WIDTH, height: Math.round((FIGURE_WIDTH * HEIGHT) / WIDTH) },
        altText: { name: words, title: words, description: words },
      }),
    ],
  });
}

function exercise(each: HandoutExercise, { labels }: HandoutView): Paragraph[] {
  return [
    heading(`${each.number}. ${each.name}`, HeadingLevel.HEADING_3),
    drawing(each),
    ...(each.rung === null ? [] : [kept(each.rung, true)]),
    ...(each.withWhom === null ? [] : [kept(each.withWhom, true)]),
    ...(each.setUp === null ? [] : [kept(each.setUp)]),
    ...each.steps.map((step, index) => kept(`${index + 1}. ${step}`)),
    kept(`${labels.howMany}: ${each.howMany.join('. ')}.`, true),
    ...(each.care.length === 0 ? [] : [kept(`${labels.takeCare}: ${each.care.join(' ')}`)]),
    plain(`\u2610 ${labels.tried}: ________`),
  ];
}

const cell = (text: string): TableCell => new TableCell({ children: [new Paragraph({ text })] });

function week(title: string, { tick }: HandoutView): (Paragraph | Table)[] {
  const row = ({ number, name, days }: TickRow): TableRow =>
    new TableRow({
      cantSplit: true,
      children: [cell(`${number}. ${name}`), ...days.map((planned) => cell(planned ? '\u25cb' : ''))],
    });
  const head = new TableRow({
    tableHeader: true,
    children: [cell(tick.exercise), ...tick.days.map((day) => cell(day.slice(0, 2)))],
  });
  return [
    heading(title, HeadingLevel.HEADING_3),
    new Table({ width: { size: 100, type: WidthType.PERCENTAGE }, rows: [head, ...tick.rows.map(row)] }),
  ];
}

function stopBox(view: HandoutView): Table {
  const [call, ...ask] = view.stop;
  const line = { style: BorderStyle.SINGLE, size: 24, color: '000000' };
  const children = [
    ...(call === undefined
      ? []
      : [heading(call.title, HeadingLevel.HEADING_2), plain(view.call, { bold: true }), ...call.lines.map(bullet)]),
    ...ask.flatMap((each) => [heading(each.title, HeadingLevel.HEADING_2), plain(view.phone), ...each.lines.map(bullet)]),
  ];
  return new Table({
    width: { size: 100, type: WidthType.PERCENTAGE },
    rows: [
      new TableRow({ children: [new TableCell({ children, borders: { top: line, bottom: line, left: line, right: line } })] }),
    ],
  });
}

function body(view: HandoutView): (Paragraph | Table)[] {
  const { labels } = view;
  return [
    ...view.letterhead.map((text) => plain(text, { bold: true })),
    heading(view.title, HeadingLevel.HEADING_1),
    plain(`${view.forClient}. ${view.date}.`),
    stopBox(view),
    ...view.before.flatMap(section),
    ...(view.withWhom === null ? [] : [plain(view.withWhom, { bold: true })]),
    ...view.week.map((text) => plain(text)),
    ...view.groups.flatMap((group) => [
      heading(group.title, HeadingLevel.HEADING_2),
      ...group.exercises.flatMap((each) => exercise(each, view)),
    ]),
    ...section(view.change),
    ...view.after.flatMap(section),
    heading(view.tick.title, HeadingLevel.HEADING_2),
    plain(view.tick.intro),
    ...view.tick.weeks.flatMap((title) => week(title, view)),
    plain(`${labels.writtenBy}: ______________________`),
    plain(`${labels.registration}: ______________________`),
  ];
}

/** The bytes of a .docx file. */
export async function renderHandoutDocx(view: HandoutView, { paper }: { readonly paper: Paper }): Promise<Uint8Array> {
  const font = { font: 'Arial', size: TEXT_SIZE, color: '000000' };
  const document = new Document({
    title: view.title,
    styles: {
      default: {
        document: { run: font },
        heading1: { run: { ...font, size: 48, bold: true } },
        heading2: { run: { ...font, size: 38, bold: true } },
        heading3: { run: { ...font, size: 34, bold: true } },
      },
    },
    sections: [
      {
        properties: {
          page: {
            size: { ...PAPERS[paper], orientation: PageOrientation.PORTRAIT },
            margin: { top: MARGIN, right: MARGIN, bottom: MARGIN, left: MARGIN },
          },
        },
        children: body(view),
      },
    ],
  });
  return new Uint8Array(await Packer.toArrayBuffer(document));
}
