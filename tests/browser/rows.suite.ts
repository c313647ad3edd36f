import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Overview } from '../../src/overview/overview.ts';
import { openPage, type OpenPage, type Setting } from './open-page.ts';
import { numberRanges } from '../../src/report/worklist-words.ts';
import { tablesIn, tableWith, wholeOf, type SeenCell } from './seen-tables.ts';

/** Without a range a figure is certain. */
const rangeOf = (row: Readonly<Record<string, SeenCell>>, figure: number | null) => ({
  low: row['At least']?.bytes ?? figure,
  high: row['At most']?.bytes ?? figure,
});

const held = async (tab: Page): Promise<Overview> =>
  JSON.parse(
    await tab.evaluate(() => document.getElementById('data')?.textContent ?? ''),
  ) as Overview;

/** Each row of each table against the place in the embedded data that it stands for. */
export const rowsSuite = (at: () => Setting) =>
  describe.each(['demo', 'missing'] as const)('row by row, the %s page', (name) => {
    let opened: OpenPage | undefined;
    let data: Overview | undefined;
    beforeAll(async () => {
      const { browser, pages } = at();
      opened = await openPage(browser, pages.made[name].url);
      data = await held(opened.tab);
    });
    afterAll(() => opened?.close());
    const open = (look: (tab: Page, data: Overview) => Promise<void>): Promise<void> =>
      look(opened!.tab, data!);

    it('tells the verdict', () =>
      open(async (tab, { proof, total }) => {
        const figures = await tab
          .locator('#verdict > :first-child [data-bytes]')
          .evaluateAll((all) => all.map((one) => Number(one.getAttribute('data-bytes'))));
        const verdict = await tab.locator('#verdict > :first-child').innerText();
        if (proof.verdict === 'missing') {
          expect(verdict).toMatch(/^Missing/);
          expect(figures).toEqual([proof.total.bytes]);
          const first = proof.misses[0]!.places[0]!;
          expect(verdict).toContain(`${first.cue} bar ${String(first.bar)}`);
        } else {
          expect(verdict).toMatch(/^Proved/);
          expect(figures).toEqual([total.bytes.kept, total.bytes.full, total.bytes.saved]);
        }
      }));

    it('tells the machines', () =>
      open(async (tab, { machines }) => {
        const rows = await tableWith(tab, 'technician', 'Machine', 'Now', 'After', 'Fits');
        expect(
          rows.map((row) => ({
            ...{ id: row['Machine']!.text, full: row['Now']!.bytes, kept: row['After']!.bytes },
            ...{ saved: row['Saved']!.bytes, budget: row['Budget']!.bytes },
            ...rangeOf(row, row['After']!.bytes),
            fits: /^(yes|no)/.exec(row['Fits']!.text)?.[1] === 'yes',
            ...{ peak: row['Largest cue']!.bytes, steps: wholeOf(row['Steps']) },
          })),
        ).toEqual(
          machines.map(({ id, bytes, budget, fits, peak, steps }) => ({
            ...{ id, full: bytes.full, kept: bytes.kept, saved: bytes.full - bytes.kept },
            ...{ budget, low: bytes.low, high: bytes.high, fits, peak: peak?.bytes ?? null, steps },
          })),
        );
      }));

    it('tells the steps that give most', () =>
      open(async (tab, { actions, machines, instruments, worklist }) => {
        const rows = await tableWith(tab, 'technician', 'Steps', 'Machine', 'Instrument', 'Frees');
        expect(
          rows.map((row) => [row['Steps']!.text, row['Machine']!.text, row['Frees']!.bytes]),
        ).toEqual(
          actions.map(({ numbers, machine, frees }) => [
            numberRanges(numbers),
            machines[machine]!.id,
            frees,
          ]),
        );
        actions.forEach(({ instrument, numbers }, i) => {
          expect(rows[i]!['Instrument']!.text).toMatch(
            new RegExp(`^${instruments[instrument]!.id}(,|$)`),
          );
          const steps = worklist
            .flatMap((list) => list.actions)
            .filter((one) => numbers.includes(one.number));
          expect(steps.reduce((sum, step) => sum + step.frees, 0)).toBe(actions[i]!.frees);
        });
        // No step by itself frees more than what is told last, unless it is told.
        const told = new Set(actions.flatMap(({ numbers }) => numbers));
        for (const { number, frees, missed } of worklist.flatMap((list) => list.actions)) {
          if (missed !== null) expect(told.has(number)).toBe(false);
          else if (!told.has(number)) expect(frees).toBeLessThanOrEqual(actions.at(-1)!.frees);
        }
      }));

    it('tells the doubts by price', () =>
      open(async (tab, { doubts, doubtsAll, together }) => {
        const rows = await tableWith(tab, 'technician', 'Doubt', 'Zones', 'Frees');
        const told = rows.filter((row) => row['Zones'] !== undefined && row['Frees'] !== undefined);
        const byName = new Map(doubts.map((one) => [one.name as string, one]));
        const listed = told.filter((row) => byName.has(row['Doubt']!.text));
        expect(listed.length).toBeGreaterThan(0);
        expect(
          listed.map((row) => [row['Doubt']!.text, wholeOf(row['Zones']), row['Frees']!.bytes]),
        ).toEqual(
          listed.map((row) => {
            const { name, zones, bytes } = byName.get(row['Doubt']!.text)!;
            return [name, zones, bytes];
          }),
        );
        // Those that cost anything are there, the dearest first.
        const prices = listed.map((row) => row['Frees']!.bytes!);
        expect(prices).toEqual([...prices].sort((a, b) => b - a));
        for (const { name, bytes } of doubts) {
          if (bytes > 0) expect(listed.map((row) => row['Doubt']!.text)).toContain(name);
        }
        const all = await tab
          .locator('#technician [data-bytes]')
          .evaluateAll((figures) => figures.map((one) => Number(one.getAttribute('data-bytes'))));
        expect(all).toContain(doubtsAll);
        for (const { bytes } of together) expect(all).toContain(bytes);
      }));

    it('tells the instruments', () =>
      open(async (tab, { instruments, machines, cues }) => {
        const rows = await tableWith(tab, 'instruments', 'Instrument', 'Machine', 'Now', 'After');
        expect(
          rows.map((row) => [
            ...['Instrument', 'Machine', 'Player'].map((head) => row[head]!.text),
            row['Zones']!.text.replaceAll(' ', ''),
            ...['Now', 'After', 'Saved'].map((head) => row[head]!.bytes),
            wholeOf(row['Cues']),
          ]),
        ).toEqual(
          instruments.map((own, i) => [
            ...[own.id, machines[own.machine]!.id, own.player],
            `${String(own.zonesKept)}/${String(own.zones)}`,
            ...[own.bytes.full, own.bytes.kept, own.bytes.full - own.bytes.kept],
            cues.filter(({ needs }) => needs.some(([index]) => index === i)).length,
          ]),
        );
        rows.forEach((row, i) => {
          const doubts = row['Doubts']!.text === '' ? [] : row['Doubts']!.text.split(', ');
          const open = instruments[i]!.doubts.filter(({ settled }) => settled === null);
          expect(doubts.sort()).toEqual(open.map((one) => one.name).sort());
        });
      }));

    it('tells the cues by instruments', () =>
      open(async (tab, { instruments, cues }) => {
        const rows = await tableWith(tab, 'matrix', 'Instrument', 'All cues');
        const played = instruments.flatMap((own, i) => {
          const needs = cues.map((cue) => cue.needs.find(([index]) => index === i)?.[1] ?? null);
          return needs.some((one) => one !== null) ? [{ id: own.id, needs }] : [];
        });
        const shown = rows.slice(0, -1).map((row) => ({
          id: row['Instrument']!.text,
          needs: cues.map(({ id }) => row[id]!.bytes),
        }));
        expect(shown).toEqual(played);
        expect(cues.map(({ id }) => rows.at(-1)![id]!.bytes)).toEqual(
          cues.map(({ bytes }) => bytes),
        );
      }));

    it('tells the reel', () =>
      open(async (tab, { machines, cues }) => {
        const rows = await tableWith(tab, 'reel', 'Cue', 'To load', 'May go');
        expect(
          rows.map((row) => [
            row['Cue']!.text,
            ...machines.map(({ id }) => row[id]!.bytes),
            ...['All machines', 'To load', 'May go'].map((head) => row[head]!.bytes),
            rangeOf(row, row['All machines']!.bytes),
          ]),
        ).toEqual(
          cues.map(({ id, machines: own, bytes, low, high, load, mayGo }) => [
            ...[id, ...own.map((one) => one.bytes), bytes, load, mayGo, { low, high }],
          ]),
        );
      }));

    it('tells the worklist', () =>
      open(async (tab, { worklist }) => {
        const tables = (await tablesIn(tab, 'worklist')).filter(({ heads }) =>
          heads.includes('Step'),
        );
        const shown = tables.map(({ heads, rows }) => {
          let heading = '';
          return rows.flatMap((cells) => {
            const [only] = cells;
            // A remark between steps is no heading.
            if (cells.length === 1 && !only!.text.endsWith('.')) heading = only!.text;
            if (cells.length === 1) return [];
            const at = (head: string) => cells[heads.findIndex((one) => one.startsWith(head))]!;
            return [
              {
                heading: heading.split(', ')[0],
                number: wholeOf(at('Step')),
                ...{ frees: at('Frees').bytes, then: at('Then').bytes },
              },
            ];
          });
        });
        expect(shown).toEqual(
          worklist
            .filter(({ actions }) => actions.length > 0)
            .map(({ actions }) =>
              actions.map(({ number, instrument, frees, total }) => ({
                ...{ heading: instrument, number, frees, then: total },
              })),
            ),
        );
      }));

    it('tells which cues were checked, and what of the risks is known', () =>
      open(async (tab, { proof, printed, findings }) => {
        const rows = await tableWith(tab, 'mix', 'Cue', 'State', 'Notes');
        expect(rows.map((row) => row['Cue']!.text)).toEqual(proof.cues.map(({ id }) => id));
        expect(rows.map((row) => wholeOf(row['Notes'])).reduce((a, b) => a + b, 0)).toBe(
          proof.notes,
        );
        const mix = await tab.locator('#mix').innerText();
        for (const { cue, track } of printed.tracks) {
          expect(mix).toContain(`${track ?? ''} in ${cue}`);
        }
        const told = await tab.locator('#findings code').allInnerTexts();
        for (const { code } of findings) expect(told).toContain(code);
      }));
  });
