/** The letter as a Word file on one page. Loaded only when asked for. */
import { AlignmentType, BorderStyle, Document, Packer, Paragraph, Table, TableCell, TableRow, TextRun, WidthType } from 'docx';
import { afterResults, factLines, HEADINGS, RESULT_HEADERS, requestParts, resultCells } from './text.ts';
import type { Letter } from './types.ts';

export type Paper = 'a4' | 'letter';

/** Half points. */
const TEXT = 18;
const SMALL = 16;
/** Twentieths of a point. */
const PAPERS: Readonly<Record<Paper, { readonly width: number; readonly height: number }>> = {
  a4: { width: 11906, height: 16838 },
  letter: { width: 12240, height: 15840 },
};
const MARGIN = { top: 680, bottom: 600, left: 850, right: 850 };
const COLUMNS = [30, 16, 24, 30];
const NUMBERED = 'requests';

const run = (text: string, bold = false, size = TEXT): TextRun => new TextRun({ text, bold, size });
const paragraph = (children: TextRun[], after = 40): Paragraph => new Paragraph({ children, spacing: { after } });
const plain = (text: string, size = TEXT): Paragraph => paragraph([run(text, false, size)]);
const heading = (text: string): Paragraph =>
  new Paragraph({ children: [run(text, true)], spacing: { before: 90, after: 20 }, keepNext: true });

function requests(letter: Letter): Paragraph[] {
  if (letter.requests.length === 0) return [plain(letter.noRequest)];
  return letter.requests.map((request) => {
    const { what, rest } = requestParts(request);
    return new Paragraph({
      children: [run(what, true), run(` ${rest}`)],
      numbering: { reference: NUMBERED, level: 0 },
      spacing: { after: 20 },
    });
  });
}

const thin = { style: BorderStyle.SINGLE, size: 4, color: 'C9D1D6' };
const none = { style: BorderStyle.NONE, size: 0, color: 'FFFFFF' };

function row(cells: readonly string[], header: boolean): TableRow {
  return new TableRow({
    tableHeader: header,
    children: cells.map(
      (cell, column) =>
        new TableCell({
          width: { size: COLUMNS[column] ?? 25, type: WidthType.PERCENTAGE },
          borders: { top: none, left: none, right: none, bottom: thin },
          children: [new Paragraph({ children: [run(cell, header || column === 0, SMALL)] })],
        }),
    ),
  });
}

const results = ({ results: rows }: Letter): (Table | Paragraph)[] =>
  rows.length === 0
    ? [plain('No test was done.')]
    : [
        new Table({
          width: { size: 100, type: WidthType.PERCENTAGE },
          rows: [row(RESULT_HEADERS, true), ...rows.map((each) => row(resultCells(each), false))],
        }),
      ];

function content(letter: Letter): (Paragraph | Table)[] {
  return [
    ...letter.letterhead.map(
      (text, index) => new Paragraph({ children: [run(text, index === 0)], alignment: AlignmentType.RIGHT }),
    ),
    plain([letter.date, ...letter.to].join('; ')),
    paragraph([run(letter.subject, true)], 80),
    ...(letter.salutation === '' ? [] : [plain(letter.salutation)]),
    paragraph([run(`${letter.urgency}. `, true), run(letter.summary)]),
    heading(HEADINGS.requests),
    ...requests(letter),
    heading(HEADINGS.doing),
    ...letter.doing.map((text) => new Paragraph({ children: [run(text)], bullet: { level: 0 }, spacing: { after: 20 } })),
    heading(HEADINGS.results),
    ...results(letter),
    ...afterResults(letter).map((text) => plain(text, SMALL)),
    heading(HEADINGS.facts),
    plain(factLines(letter).join(' ')),
    heading(HEADINGS.next),
    plain([...letter.wishes, ...letter.next].join(' ')),
    ...(letter.closing === '' ? [] : [plain(letter.closing)]),
    plain(letter.signature.join(', ')),
    ...(letter.copies === '' ? [] : [plain(letter.copies, SMALL)]),
  ];
}

/** The file's bytes. */
export async function letterDocx(letter: Letter, paper: Paper): Promise<Uint8Array> {
  const document = new Document({
    title: letter.subject,
    styles: { default: { document: { run: { font: 'Arial', size: TEXT } } } },
    numbering: {
      config: [
        {
          reference: NUMBERED,
          levels: [{ level: 0, format: 'decimal', text: '%1.', style: { paragraph: { indent: { left: 360, hanging: 360 } } } }],
        },
      ],
    },
    sections: [{ properties: { page: { size: PAPERS[paper], margin: MARGIN } }, children: content(letter) }],
  });
  return new Uint8Array(await Packer.toArrayBuffer(document));
}
