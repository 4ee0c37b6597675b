/** The look of the report and the letter, on screen and on paper. Text colours stand at 4.5 to 1 or more on their ground. */
export const PAGE_STYLE = `
:root { --ink: #1b2328; --soft: #4a565e; --line: #c9d1d6; --ground: #eef2f4; --bad: #9b1c1c; --warn: #7a4b00; --calm: #0b4f7d; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 62rem; padding: 1rem 1.25rem 2rem; color: var(--ink); background: #fff; font: 1rem/1.45 system-ui, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.4rem; margin: 0; } h2 { font-size: 1.15rem; margin: 1.6rem 0 .5rem; border-bottom: 2px solid var(--line); } h3 { font-size: 1rem; margin: 1rem 0 .25rem; } h4 { font-size: .95rem; margin: .6rem 0 .1rem; }
p { margin: .3rem 0; } ul, ol { margin: .3rem 0; padding-left: 1.3rem; } li { margin: .15rem 0; } a { color: var(--calm); }
.soft { color: var(--soft); } .small { font-size: .88rem; }
.box { border: 3px solid var(--bad); border-radius: .4rem; padding: .4rem .9rem; margin: .8rem 0; } .box h2 { border: 0; margin: 0; color: var(--bad); } .calm { border-color: var(--line); border-width: 2px; } .calm h2 { color: var(--ink); }
.level { font-size: 1.2rem; font-weight: 700; margin: .3rem 0; }
dl { margin: .3rem 0; } dl div { display: grid; grid-template-columns: 7.5rem 1fr; gap: .2rem .8rem; padding: .12rem 0; } dt { color: var(--soft); } dd { margin: 0; } dd ul { margin: 0; }
table { border-collapse: collapse; width: 100%; } th, td { text-align: left; vertical-align: top; padding: .25rem .5rem; border-bottom: 1px solid var(--line); } thead th { color: var(--soft); font-weight: 600; } tbody th { font-weight: 600; }
.wide { overflow-x: auto; overflow-wrap: normal; }
.sign { font-weight: 700; white-space: nowrap; } .linked { color: var(--bad); } .unclear { color: var(--warn); }
.charts { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(24rem, 100%), 1fr)); gap: 1rem; }
figure { margin: 0; border: 1px solid var(--line); border-radius: .4rem; padding: .6rem; break-inside: avoid; } figcaption { font-weight: 600; }
svg { display: block; } svg.chart { width: 100%; height: auto; } svg text { font-family: inherit; font-size: 9.5px; fill: var(--ink); }
svg .label { paint-order: stroke; stroke: #fff; stroke-width: 3px; } svg .tick, svg .other .label { fill: var(--soft); } svg .axis { stroke: #8b979e; } svg .half { fill: #b9d6ea; stroke: #1f6aa5; stroke-width: .6; } svg .nine { fill: #1f6aa5; } svg .other .half { fill: #e3e8eb; stroke: #6b7780; } svg .other .nine { fill: #6b7780; } svg .centre { stroke: var(--ink); stroke-width: 1.6; }
svg .mark { stroke: var(--bad); stroke-dasharray: 5 3; } svg .mark-label { fill: var(--bad); } svg .client { fill: var(--ink); } svg .error { stroke: var(--ink); stroke-width: 1.2; fill: none; } svg .trial { fill: #fff; stroke: var(--ink); } svg .unable { stroke: var(--bad); stroke-width: 2.4; fill: none; }
svg.ladder { width: 5rem; height: auto; flex: none; } svg .rung { fill: #e3e8eb; stroke: #6b7780; stroke-width: .8; } svg .start { fill: #0b4f7d; stroke: #0b4f7d; }
.path { list-style: none; padding: 0; counter-reset: step; } .path li { position: relative; margin: 0 0 1.1rem; padding: .45rem .8rem; border: 2px solid var(--ink); border-radius: .4rem; break-inside: avoid; } .path li + li::before { content: "\\2193"; position: absolute; top: -1.45rem; left: 1rem; font-size: 1.1rem; line-height: 1.4; }
.path .unknown { border-style: dashed; border-color: var(--warn); } .path .not_reached { border: 1px dashed var(--line); color: var(--soft); } .path .end { background: var(--ground); font-weight: 700; } .path .answer { font-weight: 700; }
.exercise { display: flex; align-items: flex-start; gap: .9rem; border-top: 1px solid var(--line); padding: .5rem 0; break-inside: avoid; } .exercise h4 { margin: 0; } .exercise ul { margin: .1rem 0; } .exercise label { font-weight: 700; }
nav ul { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: .2rem 1rem; }
summary { cursor: pointer; color: var(--calm); } details { margin: .3rem 0; }
@media (max-width: 36rem) { body { padding: .6rem; } dl div { grid-template-columns: 1fr; gap: 0; } }
@page { margin: 14mm; }
@media print { body { padding: 0; max-width: none; font-size: 9pt; line-height: 1.35; } h2 { margin-top: 1rem; } .small { font-size: .92em; } nav { display: none; } h2, h3, h4 { break-after: avoid; } tr { break-inside: avoid; } .charts { grid-template-columns: 1fr 1fr; } a { color: inherit; text-decoration: none; } .wide { overflow: visible; } article + article { break-before: page; } }
`;
