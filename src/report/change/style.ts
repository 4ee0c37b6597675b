/** The look of the change page, on screen and on paper. Every text colour stands at 4.5 to 1 or more on its ground. */
export const CHANGE_STYLE = `
:root { --ink: #1b2328; --soft: #4a565e; --line: #c9d1d6; --good: #0b5d3b; --bad: #9b1c1c; --calm: #37474f; --paper: #ffffff; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 66rem; padding: 1rem 1.25rem 2rem; color: var(--ink); background: var(--paper); font: 1rem/1.45 system-ui, sans-serif; }
h1 { font-size: 1.35rem; margin: 0; } h2 { font-size: 1.1rem; margin: 1.5rem 0 .5rem; border-bottom: 2px solid var(--line); } h3 { font-size: 1rem; margin: .25rem 0; }
p { margin: .3rem 0; } .soft { color: var(--soft); } ul { margin: .3rem 0; padding-left: 1.2rem; }
.look { border: 3px solid var(--bad); border-radius: .4rem; padding: .4rem .9rem; margin: .8rem 0; } .look h2 { border: 0; margin: 0; color: var(--bad); }
table { border-collapse: collapse; width: 100%; } th, td { text-align: left; vertical-align: top; padding: .3rem .5rem; border-bottom: 1px solid var(--line); }
th { color: var(--soft); font-weight: 600; } tbody th { color: var(--ink); }
.summary tr.marks td { border-top: 0; padding-top: 0; font-size: .88rem; color: var(--soft); } .summary tr:has(+ tr.marks) td, .summary tr:has(+ tr.marks) th { border-bottom: 0; }
.verdict { font-weight: 700; } .improved { color: var(--good); } .worsened { color: var(--bad); } .within_error, .cannot_tell { color: var(--calm); }
.wide { overflow-x: auto; }
.charts { display: grid; grid-template-columns: repeat(auto-fit, minmax(18rem, 1fr)); gap: 1rem; }
.charts figure { margin: 0; border: 1px solid var(--line); border-radius: .4rem; padding: .6rem; break-inside: avoid; }
figcaption p { margin: 0; } svg { width: 100%; height: auto; display: block; } svg text { font-family: inherit; }
svg .usual { fill: #dcecf8; } svg .error { fill: #6b7780; fill-opacity: .18; stroke: #6b7780; stroke-dasharray: 2 3; stroke-width: .8; }
svg .grid { stroke: #e3e8eb; stroke-width: .6; } svg .centre { stroke: #1f6aa5; stroke-width: 1; } svg .mark { stroke: var(--bad); stroke-dasharray: 6 3; stroke-width: 1.2; }
svg .path { fill: none; stroke: var(--ink); stroke-width: 1.4; } svg .point { fill: var(--ink); } svg .point.other { fill: var(--paper); stroke: var(--ink); stroke-width: 1.6; } svg .unable { stroke: var(--bad); stroke-width: 2.2; fill: none; }
svg .tick { font-size: 9.5px; fill: var(--soft); } svg .label { font-size: 9.5px; } svg .mark-label { fill: var(--bad); } svg .usual-label { fill: #1a5a8c; }
.legend { font-size: .9rem; color: var(--soft); }
ul.short { list-style: none; padding: .5rem .9rem; margin: .8rem 0; border-left: .4rem solid var(--calm); background: #f3f6f7; }
.detail { border-top: 1px solid var(--line); padding: .4rem 0; } .detail li { margin: .1rem 0; }
.small { font-size: .88rem; }
@media (max-width: 36rem) { body { padding: .6rem; } th, td { padding: .25rem .3rem; font-size: .88rem; } }
@page { size: A4; margin: 14mm; }
@media print { body { padding: 0; max-width: none; font-size: 10pt; } .charts { grid-template-columns: 1fr 1fr; } h2, h3 { break-after: avoid; } details { display: none; } .detail, .small { font-size: 8.5pt; } .detail h3 { font-size: 9.5pt; } a { color: inherit; text-decoration: none; } }
`;
