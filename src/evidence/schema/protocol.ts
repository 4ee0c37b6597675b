/** `norms/protocols/<id>.yaml`: how one test or measurement is carried out, point by point, each point with its basis. */
import { z } from 'zod';
import { Basis, Prose, SnakeId } from './common.ts';

/** One statement. `from` names an entry of the file's own `bases`. */
const Point = z.strictObject({
  text: Prose.meta({ description: 'One short statement in plain words' }),
  from: SnakeId.meta({ description: 'Key of `bases`: where the statement comes from and how it was read' }),
});
export type ProtocolPoint = z.infer<typeof Point>;

const Points = z.array(Point).default([]);

/** Parts of a card in the order in which they are shown. */
export const PROTOCOL_PARTS = [
  'purpose',
  'equipment',
  'setup',
  'say',
  'trials',
  'start',
  'stop',
  'void',
  'scoring',
  'safety',
  'mistakes',
  'variants',
] as const;
export type ProtocolPart = (typeof PROTOCOL_PARTS)[number];

export const ProtocolFile = z.strictObject({
  id: SnakeId.meta({ description: 'Id of a test of the catalogue, or of a measurement that has a card of its own' }),
  /** Only where the card is not that of a test of the catalogue. */
  measurement: Prose.optional().meta({ description: 'Name of a measurement that is no test of the catalogue' }),
  bases: z.record(SnakeId, Basis),
  purpose: Points,
  equipment: Points,
  setup: Points,
  say: Points.meta({ description: 'What the client is told, in the words of this project' }),
  trials: Points,
  start: Points.meta({ description: 'When the watch or the count starts' }),
  stop: Points.meta({ description: 'When it stops, the ceiling among it' }),
  void: Points.meta({ description: 'What makes a trial not count' }),
  scoring: Points.meta({ description: 'What is written down' }),
  safety: Points.meta({ description: 'Where to stand, what to hold ready, when to stop the test' }),
  mistakes: Points.meta({ description: 'Common errors of carrying it out' }),
  variants: Points.meta({ description: 'Versions whose results are not interchangeable with this one' }),
  minutes: Point.optional().meta({ description: 'Time needed' }),
});
export type ProtocolFile = z.infer<typeof ProtocolFile>;
