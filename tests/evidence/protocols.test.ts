/** The protocol cards: every test has one, each statement names its basis, and each can be shown. */
import { describe, expect, it } from 'vitest';
import { compileProtocols } from '../../src/evidence/compile.ts';
import { parseNorms } from '../../src/evidence/parse.ts';
import { bundledProtocols } from '../../src/evidence/protocols.ts';
import { PROTOCOL_PARTS } from '../../src/evidence/schema/protocol.ts';
import { renderProtocolHtml } from '../../src/report/protocol/html.ts';
import { protocolView } from '../../src/report/protocol/view.ts';
import { normsFolder, testEvidence } from '../support/evidence.ts';
import { footing } from '../support/run.ts';

const evidence = testEvidence();
const cards = compileProtocols(normsFolder);

describe('norms/protocols', () => {
  it('has a card for every test of the catalogue, in its order', () => {
    expect(cards.slice(0, evidence.tests.length).map(({ id }) => id)).toEqual(evidence.tests.map(({ id }) => id));
  });

  it('is what the build put in', () => {
    expect(bundledProtocols()).toEqual(JSON.parse(JSON.stringify(cards)));
  });

  it.each(cards.map((card) => [card.id, card] as const))(
    '%s says how, when it starts and stops, what to write and how to guard',
    (_id, card) => {
      for (const part of ['purpose', 'equipment', 'setup', 'say', 'trials', 'scoring', 'safety'] as const)
        expect(card[part].length, part).toBeGreaterThan(0);
      // Only what the lists of evidence allow may be recalled; no protocol is among it.
      for (const basis of Object.values(card.bases)) expect('status' in basis ? basis.status : 'own').not.toBe('memory');
    },
  );

  it.each(cards.map((card) => [card.id, card] as const))(
    '%s carries a mark on every statement and its sources below',
    (_id, card) => {
      const view = protocolView(card, evidence);
      const statements = PROTOCOL_PARTS.flatMap((part) => card[part]).length + (card.minutes === undefined ? 0 : 1);
      const lines = view.sections.flatMap(({ lines: each }) => each);
      expect(lines).toHaveLength(statements);
      for (const line of lines) expect(line).toMatch(/ \[[^\]]+\]$/);
      const numbers = lines.flatMap((line) => [...(/\[(\d+)/.exec(line)?.slice(1) ?? [])].map(Number));
      expect(view.sources.map(({ number }) => number)).toEqual([...new Set(numbers)].sort((a, b) => a - b));
      expect(renderProtocolHtml([view], '')).toContain('<h1>');
    },
  );

  it('finds a statement without a basis and a card without a test', () => {
    const file = (text: string) =>
      parseNorms([{ path: 'protocols/x.yaml', text }], { partial: false }).problems.map(({ message }) => message);
    const basis = 'bases: {practice: {status: common-practice, note: A rule.}}\n';
    expect(file(`id: x\n${basis}purpose: [{text: What for., from: else}]\n`)).toEqual(
      expect.arrayContaining(['x: there is no "else" under bases', 'x: the basis "practice" is named by no statement']),
    );
    expect(file(`id: x\n${basis}purpose: [{text: What for., from: practice}]\n`)).toEqual(
      expect.arrayContaining(['"x" is no test of the catalogue: correct it, or name the measurement']),
    );
  });
});

describe('footing protocol', () => {
  it.each([['timed_up_and_go'], ['TUG'], ['tug'], ['Timed up and go']])('%s shows the card', async (name) => {
    const { code, stdout } = await footing(['protocol', name]);
    expect(code).toBe(0);
    expect(stdout).toContain('a line on the floor 3 m (10 ft)');
    expect(stdout).toContain('STEADI assessment');
  });

  it('lists every card, and says what is meant by a slip', async () => {
    const { stdout } = await footing(['protocol']);
    for (const { id } of evidence.tests) expect(stdout).toContain(`  ${id} `);
    const { code, stderr } = await footing(['protocol', 'timed_up_and_goo']);
    expect(code).toBe(2);
    expect(stderr).toContain('timed_up_and_go');
  });

  it('prints all cards as one page without anything from outside', async () => {
    const { stdout } = await footing(['protocol', '--all', '--format', 'html']);
    expect(stdout.split('<article>').length - 1).toBe(cards.length);
    expect(stdout).not.toMatch(/<script|src=|<link/);
  });
});
