/** The look of the page: 16 points and more everywhere, black on white, one column; A4 or letter. */
export type Paper = 'a4' | 'letter';

const SIZES: Readonly<Record<Paper, string>> = { a4: 'A4', letter: 'letter' };

export const handoutStyle = (paper: Paper): string => `
@page { size: ${SIZES[paper]}; margin: ${paper === 'letter' ? '6.4mm 8mm' : '8mm 10mm'}; }
* { box-sizing: border-box; }
html { font-size: 16pt; }
body { margin: 0 auto; max-width: 202mm; padding: 6mm; color: #000; background: #fff; font: 1rem/${paper === 'letter' ? 1.1 : 1.15} Arial, Helvetica, "Liberation Sans", sans-serif; }
h1 { font-size: 1.5rem; margin: 0; } h2 { font-size: 1.15rem; margin: 2.5mm 0 .5mm; break-after: avoid; } h3 { font-size: 1.05rem; margin: 0; }
p { margin: .8mm 0; } ul, ol { margin: .8mm 0; padding-left: 7mm; } li { margin: 0 0 .4mm; }
header { border-bottom: 1mm solid #000; padding-bottom: 1.5mm; }
header p { margin: 0; } .letterhead { font-weight: bold; }
.stop { border: 1.2mm solid #000; border-radius: 2mm; padding: 1mm 3mm 1.5mm; margin: 2.5mm 0; break-inside: avoid; }
.stop h2 { margin: .5mm 0; } .stop .call { font-size: 1.2rem; font-weight: bold; }
.with { border-left: 1.5mm solid #000; padding-left: 3mm; font-weight: bold; }
.block { break-inside: avoid; } .one h2, .one p { display: inline; } .stop h2 span { font-weight: normal; }
.exercise { display: grid; grid-template-columns: 33mm 1fr; column-gap: 3mm; border-top: .5mm solid #000; padding: .9mm 0; break-inside: avoid; }
.exercise .figure { grid-row: 1 / span 2; } .exercise svg { width: 33mm; height: auto; display: block; }
.head { display: flex; justify-content: space-between; align-items: baseline; gap: 3mm; }
.tried { white-space: nowrap; } .box { display: inline-block; width: 17mm; height: 7.5mm; border: .5mm solid #000; vertical-align: middle; }
.many { font-weight: bold; }
table { border-collapse: collapse; width: 100%; break-inside: avoid; } th, td { border: .4mm solid #000; padding: .6mm .8mm; text-align: center; font-weight: normal; }
thead th { font-weight: bold; } tbody th { text-align: left; width: 68mm; } .tick td { height: 7.2mm; padding: 0; } .tick .new { border-left-width: 1.2mm; }
.ring { display: inline-block; width: 5.6mm; height: 5.6mm; border: .4mm solid #000; border-radius: 50%; vertical-align: middle; }
.sign { display: grid; grid-template-columns: 1fr 1.2fr; gap: 4mm; align-items: end; } .sign div + div p { border-bottom: .4mm solid #000; margin-top: 1mm; }
.hidden { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
@media print { body { padding: 0; max-width: none; } }
`;
