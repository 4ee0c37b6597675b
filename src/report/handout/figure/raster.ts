/**
 * The drawings as PNG, for word processors that cannot show SVG. It knows just the elements that the drawings are made of, and
 * paints them in their order by distance to the shape, half a pixel soft at the edge. Bytes are the same on every computer.
 */
import { deflateSync } from 'node:zlib';
import { HEIGHT, type Point, WIDTH } from './geometry.ts';
import { dashed, pathPoints } from './raster-path.ts';

/** Pixels for one unit of the drawing. */
const SCALE = 2;
const COLUMNS = WIDTH * SCALE;
const ROWS = HEIGHT * SCALE;

type Attributes = Readonly<Record<string, string>>;
/** Signed distance of a point to the edge of a shape, below 0 inside; in units of the drawing. */
type Distance = (x: number, y: number) => number;

const numberOf = (attributes: Attributes, name: string, otherwise = 0): number => Number(attributes[name] ?? otherwise);

function toSegment(x: number, y: number, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay];
  const length = dx * dx + dy * dy;
  const share = length === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / length));
  return Math.hypot(x - ax - share * dx, y - ay - share * dy);
}

const toLine =
  (points: readonly Point[]): Distance =>
  (x, y) => {
    let nearest = Number.POSITIVE_INFINITY;
    for (let index = 1; index < points.length; index += 1)
      nearest = Math.min(nearest, toSegment(x, y, points[index - 1] ?? [0, 0], points[index] ?? [0, 0]));
    return nearest;
  };

/** Even-odd rule. */
function isInside(x: number, y: number, points: readonly Point[]): boolean {
  let inside = false;
  for (let index = 0; index < points.length; index += 1) {
    const [ax, ay] = points[index] ?? [0, 0];
    const [bx, by] = points[(index + points.length - 1) % points.length] ?? [0, 0];
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
  }
  return inside;
}

const toPolygon = (points: readonly Point[]): Distance => {
  const edge = toLine([...points, ...points.slice(0, 1)]);
  return (x, y) => edge(x, y) * (isInside(x, y, points) ? -1 : 1);
};

function shapeOf(kind: string, attributes: Attributes): Distance {
  if (kind === 'circle') {
    const [cx, cy, r] = [numberOf(attributes, 'cx'), numberOf(attributes, 'cy'), numberOf(attributes, 'r')];
    return (x, y) => Math.hypot(x - cx, y - cy) - r;
  }
  if (kind === 'ellipse') {
    const [cx, cy, rx, ry] = ['cx', 'cy', 'rx', 'ry'].map((name) => numberOf(attributes, name)) as [
      number,
      number,
      number,
      number,
    ];
    return (x, y) => (Math.hypot((x - cx) / rx, (y - cy) / ry) - 1) * Math.min(rx, ry);
  }
  if (kind === 'rect') {
    const [x, y, width, height] = ['x', 'y', 'width', 'height'].map((name) => numberOf(attributes, name)) as [
      number,
      number,
      number,
      number,
    ];
    return toPolygon([
      [x, y],
      [x + width, y],
      [x + width, y + height],
      [x, y + height],
    ]);
  }
  return toPolygon(pathPoints(attributes.d ?? ''));
}

/** Left, top, right and bottom of a shape, in units of the drawing. */
type Box = readonly [number, number, number, number];

/** Lays ink (0 black, 255 white) where the distance is at most `reach`; only near the box of the shape. */
function paint(pixels: Uint8Array, distance: Distance, box: Box, reach: number, ink: number): void {
  const [left, top, right, bottom] = box;
  const margin = reach + 1;
  const rows = [Math.max(0, Math.floor((top - margin) * SCALE)), Math.min(ROWS, Math.ceil((bottom + margin) * SCALE))] as const;
  const columns = [
    Math.max(0, Math.floor((left - margin) * SCALE)),
    Math.min(COLUMNS, Math.ceil((right + margin) * SCALE)),
  ] as const;
  for (let row = rows[0]; row < rows[1]; row += 1)
    for (let column = columns[0]; column < columns[1]; column += 1) {
      const away = (distance((column + 0.5) / SCALE, (row + 0.5) / SCALE) - reach) * SCALE;
      if (away >= 0.5) continue;
      const cover = Math.min(1, 0.5 - away);
      const at = row * COLUMNS + column;
      pixels[at] = Math.round((pixels[at] ?? 255) * (1 - cover) + ink * cover);
    }
}

function boxOf(kind: string, attributes: Attributes): Box {
  const of = (name: string): number => numberOf(attributes, name);
  if (kind === 'rect') return [of('x'), of('y'), of('x') + of('width'), of('y') + of('height')];
  if (kind !== 'path') {
    const [rx, ry] = kind === 'circle' ? [of('r'), of('r')] : [of('rx'), of('ry')];
    return [of('cx') - rx, of('cy') - ry, of('cx') + rx, of('cy') + ry];
  }
  return boxAround(pathPoints(attributes.d ?? ''));
}

function boxAround(points: readonly Point[]): Box {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

/** Each piece of a dashed line is a stroke of its own. */
function strokesOf(kind: string, attributes: Attributes, shape: Distance): { readonly distance: Distance; readonly box: Box }[] {
  if (kind !== 'path') return [{ distance: (x, y) => Math.abs(shape(x, y)), box: boxOf(kind, attributes) }];
  const pattern = (attributes['stroke-dasharray'] ?? '')
    .split(' ')
    .map(Number)
    .filter((length) => length > 0);
  return dashed(pathPoints(attributes.d ?? ''), pattern).map((piece) => ({ distance: toLine(piece), box: boxAround(piece) }));
}

const inkOf = (colour: string | undefined): number | null => (colour === '#000' ? 0 : colour === '#fff' ? 255 : null);

function paintElement(pixels: Uint8Array, kind: string, attributes: Attributes): void {
  const shape = shapeOf(kind, attributes);
  const fill = inkOf(attributes.fill);
  if (fill !== null) paint(pixels, shape, boxOf(kind, attributes), 0, fill);
  if (inkOf(attributes.stroke) === null) return;
  for (const { distance, box } of strokesOf(kind, attributes, shape))
    paint(pixels, distance, box, numberOf(attributes, 'stroke-width', 1) / 2, 0);
}

/** Cyclic redundancy check of PNG chunks (ISO 3309), bit by bit. */
function checksum(bytes: Uint8Array): number {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit += 1) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return (sum ^ 0xffffffff) >>> 0;
}

function chunk(type: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(checksum(body));
  return Buffer.concat([length, body, sum]);
}

/** `marks` is what `figureMarks` gives; a grey-scale PNG of twice the drawing's units. */
export function figurePng(marks: string): Uint8Array {
  const pixels = new Uint8Array(COLUMNS * ROWS).fill(255);
  for (const [, kind = '', text = ''] of marks.matchAll(/<(path|circle|rect|ellipse) ([^>]*)\/>/g))
    paintElement(
      pixels,
      kind,
      Object.fromEntries([...text.matchAll(/([a-z-]+)="([^"]*)"/g)].map(([, name = '', value = '']) => [name, value])),
    );
  const header = Buffer.alloc(13);
  header.writeUInt32BE(COLUMNS, 0);
  header.writeUInt32BE(ROWS, 4);
  header.writeUInt8(8, 8);
  const lines = Buffer.alloc((COLUMNS + 1) * ROWS);
  for (let row = 0; row < ROWS; row += 1) lines.set(pixels.subarray(row * COLUMNS, (row + 1) * COLUMNS), row * (COLUMNS + 1) + 1);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return new Uint8Array(
    Buffer.concat([signature, chunk('IHDR', header), chunk('IDAT', deflateSync(lines)), chunk('IEND', new Uint8Array(0))]),
  );
}
