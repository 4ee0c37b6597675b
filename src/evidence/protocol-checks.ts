/** What must hold of the protocol cards: every test has one, and every statement names a basis that its file gives. */
import { type Check, problemAt } from './check.ts';
import { PROTOCOL_PARTS, type ProtocolFile, type ProtocolPoint } from './schema/protocol.ts';

const pointsOf = (card: ProtocolFile): readonly ProtocolPoint[] => [
  ...PROTOCOL_PARTS.flatMap((part) => card[part]),
  ...(card.minutes === undefined ? [] : [card.minutes]),
];

const statementsHaveBases: Check = (norms) =>
  norms.protocols.flatMap((card) => {
    const named = new Set(pointsOf(card).map(({ from }) => from));
    return [
      ...pointsOf(card)
        .filter(({ from }) => card.bases[from] === undefined)
        .map((point) => problemAt(norms, point, 'from', `${card.id}: there is no "${point.from}" under bases`)),
      ...Object.keys(card.bases)
        .filter((key) => !named.has(key))
        .map((key) => problemAt(norms, card.bases, key, `${card.id}: the basis "${key}" is named by no statement`)),
    ];
  });

/** A card is that of a test of the catalogue, or it names the measurement that it is for. */
const cardsHaveNames: Check = (norms) => {
  const known = new Set(norms.tests.map((test) => test.id));
  return norms.protocols
    .filter((card) => known.has(card.id) === (card.measurement !== undefined))
    .map((card) =>
      problemAt(
        norms,
        card,
        'id',
        known.has(card.id)
          ? `"${card.id}" is a test of the catalogue: leave out measurement`
          : `"${card.id}" is no test of the catalogue: correct it, or name the measurement`,
      ),
    );
};

export const protocolsAreThere: Check = (norms) => {
  const there = new Set(norms.protocols.map((card) => card.id));
  return norms.tests
    .filter((test) => !there.has(test.id))
    .map((test) => problemAt(norms, test, 'id', `${test.id} has no protocol (protocols/${test.id}.yaml)`, 'tests.yaml'));
};

export const PROTOCOL_CHECKS: readonly Check[] = [statementsHaveBases, cardsHaveNames];
