// csv-parse alone: `node parse.mjs record|array FILE` reads every row and keeps none.
import { createReadStream } from 'node:fs';
import { parse } from 'csv-parse';

const [mode, file] = process.argv.slice(2);
let rows = 0;
for await (const _ of createReadStream(file).pipe(parse({ columns: mode === 'record' }))) rows += 1;
if (mode === 'array') rows -= 1;
console.log(rows);
