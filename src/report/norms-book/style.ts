/** The look of the book of norms, on screen and on paper. Text colours stand at 4.5 to 1 or more on their ground. */
export const BOOK_STYLE = `
:root { --ink: #1b2328; --soft: #4a565e; --line: #c9d1d6; --ground: #eef2f4; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 70rem; padding: 1rem 1.25rem 3rem; color: var(--ink); background: #fff; font: 1rem/1.45 system-ui, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.5rem; } h2 { font-size: 1.25rem; margin: 2.2rem 0 .4rem; padding-bottom: .2rem; border-bottom: 2px solid var(--line); } h3 { font-size: 1.05rem; margin: 1.2rem 0 .3rem; } h4 { font-size: 1rem; margin: 1rem 0 .2rem; }
p { margin: .3rem 0; } a { color: #0b4f7d; } .soft { color: var(--soft); font-weight: 400; }
.status { font-weight: 400; font-size: .88rem; background: var(--ground); border: 1px solid var(--line); border-radius: .8rem; padding: .05rem .55rem; }
dl { margin: .2rem 0 .5rem; } dl div { display: grid; grid-template-columns: 9.5rem 1fr; gap: .2rem .8rem; } dt { color: var(--soft); } dd { margin: 0; }
.sources div { grid-template-columns: minmax(8rem, 15rem) 1fr; padding: .15rem 0; }
.wide { overflow-x: auto; margin: .4rem 0 .8rem; } table { border-collapse: collapse; font-size: .92rem; font-variant-numeric: tabular-nums; overflow-wrap: normal; }
caption { text-align: left; color: var(--soft); padding: .15rem 0; } th, td { text-align: left; padding: .18rem .55rem; border-bottom: 1px solid var(--line); vertical-align: top; } thead th { background: var(--ground); } tbody th { font-weight: 600; white-space: nowrap; }
.item { padding-left: .8rem; border-left: 3px solid var(--line); margin: .7rem 0; } .item h4 { margin-top: 0; }
nav ol { columns: 2 22rem; column-gap: 3rem; padding-left: 1.6rem; } nav li { break-inside: avoid; margin: .15rem 0; font-size: .95rem; } .reading li { margin: .35rem 0; }
@page { size: A4; margin: 14mm 12mm; }
@media print { body { max-width: none; padding: 0; font-size: 9.5pt; } .test { break-before: page; } h2, h3, h4, caption { break-after: avoid; } tr, .item, li, dl div { break-inside: avoid; } thead { display: table-header-group; } .wide { overflow: visible; } table { font-size: 8.5pt; } a { color: inherit; text-decoration: none; } }
`;
