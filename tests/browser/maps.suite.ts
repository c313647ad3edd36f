import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { cellStates, type OverviewCell } from '../../src/overview/overview-map.ts';
import type { OverviewInstrument } from '../../src/overview/overview-instrument.ts';
import type { Overview } from '../../src/overview/overview.ts';
import { openPage, type Setting } from './open-page.ts';

interface SeenRow {
  readonly label: string;
  /** By the class of the path: runs of places from the left. */
  readonly runs: readonly (readonly [kind: string, from: number, length: number])[];
}

/** Rows of all maps as they are drawn: the paths taken apart, in keys from the first of the strip. */
const drawn = (tab: Page): Promise<readonly (readonly SeenRow[])[]> =>
  tab.locator('#maps section[data-instrument]').evaluateAll((maps) =>
    maps.map((map) =>
      [...map.querySelectorAll('tbody tr')]
        .filter((row) => row.querySelector('svg') !== null)
        .map((row) => ({
          label: (row.querySelector('th')?.textContent ?? '').trim(),
          runs: [...row.querySelectorAll('svg path')].flatMap((path) =>
            [...(path.getAttribute('d') ?? '').matchAll(/M(\d+) 0h(\d+)/g)].map(
              ([, from, length]) =>
                [path.getAttribute('class') ?? '', Number(from), Number(length)] as const,
            ),
          ),
        })),
    ),
  );

/** What the legend says of the classes of paths: the first word of each entry is a state. */
const legend = async (tab: Page): Promise<ReadonlyMap<string, string>> =>
  new Map(
    await tab
      .locator('#maps ul li:has(svg path)')
      .evaluateAll((entries) =>
        entries.map((entry) => [
          entry.querySelector('path')?.getAttribute('class') ?? '',
          /^\s*([a-z]+)/.exec(entry.textContent)?.[1] ?? '',
        ]),
      ),
  );

/** State by key, from the cells. */
const statesOf = (cells: readonly OverviewCell[]): ReadonlyMap<number, string> =>
  new Map(
    cells.flatMap(([lo, hi, state]) =>
      Array.from({ length: hi - lo + 1 }, (_, i) => [lo + i, cellStates[state]!] as const),
    ),
  );

/** Layers that are drawn: those of an articulation of which something stays. */
const rowsOf = ({ articulations }: OverviewInstrument) =>
  articulations
    .filter(({ zonesKept }) => zonesKept > 0)
    .flatMap(({ name, rows, keysPlayed }) => rows.map((row) => ({ name, row, keysPlayed })));

/** Lines without a strip, and what stands in the titles of the rest: by articulation. */
const titles = (tab: Page) =>
  tab.locator('#maps section[data-instrument]').evaluateAll((maps) =>
    maps.map((map) =>
      [...map.querySelectorAll('tbody')].map((group) => ({
        title: (group.querySelector('th')?.textContent ?? '').replaceAll('\u00a0', ' '),
        bytes: [...group.querySelectorAll('th [data-bytes]')].map((one) =>
          Number(one.getAttribute('data-bytes')),
        ),
        strips: group.querySelectorAll('svg').length,
      })),
    ),
  );

/** Whether the panel is in the window, all of it. */
const isInView = (tab: Page): Promise<boolean> =>
  tab.locator('#panel').evaluate((panel) => {
    const { top, bottom } = panel.getBoundingClientRect();
    return top >= 0 && bottom <= window.innerHeight + 1;
  });

interface Chosen {
  readonly instrument: number;
  readonly row: number;
  readonly key: number;
  readonly cell: OverviewCell;
}

/** A cell of each state, with witnesses where there are any. */
const cellsToChoose = ({ instruments }: Overview): readonly Chosen[] =>
  cellStates.flatMap((_, state) => {
    const all = instruments.flatMap((own, instrument) =>
      rowsOf(own).flatMap(({ row: { cells } }, row) =>
        cells
          .filter((cell) => cell[2] === state)
          .map((cell) => ({ instrument, row, key: cell[0], cell })),
      ),
    );
    const best = all.find(({ cell }) => cell[7] > 1) ?? all[0];
    return best === undefined ? [] : [best];
  });

const witnessTexts = ({ instruments, cues, tracks }: Overview, { instrument, cell }: Chosen) =>
  instruments[instrument]!.witnesses.slice(cell[6], cell[6] + cell[7]).map(
    ([cue, track, bar, beat, key, velocity]) => [
      cues[cue]!.id,
      tracks[track] ?? '',
      `bar ${String(bar)} beat ${String(Math.floor(beat))}`,
      ...(key === null ? [] : [`(${String(key)})`]),
      ...(velocity === null ? [] : [`velocity ${String(velocity)}`]),
    ],
  );

export const mapsSuite = (at: () => Setting) =>
  describe('the maps', () => {
    it.each(['demo', 'small'] as const)('draw every cell of the %s page', async (name) => {
      const { browser, pages } = at();
      const { overview, url } = pages.made[name];
      const { tab, complaints, close } = await openPage(browser, url);
      const states = await legend(tab);
      expect([...states.values()].sort()).toEqual([...cellStates].sort());
      const maps = await drawn(tab);
      // Where a strip begins is read off its ruler: the names of the Cs say their numbers.
      const firsts = await tab.locator('#maps section[data-instrument]').evaluateAll((all) =>
        all.map((map) => {
          // All of it is gone: there is nothing to read off.
          if (map.querySelector('tbody svg') === null) return null;
          const text = map.querySelector('thead text');
          const number = /\((\d+)\)/.exec(text?.textContent ?? '')?.[1];
          const strip = map.querySelector('tbody svg')!.getBoundingClientRect();
          const ruler = map.querySelector('thead svg')!.getBoundingClientRect();
          const path = map.querySelector<SVGPathElement>('tbody svg path')!.getScreenCTM()!;
          const shift = Number(text?.getAttribute('x') ?? 0) + ruler.left - strip.left;
          return {
            key: Number(number) - Math.round((shift - 2) / path.a),
            left: path.e - strip.left,
          };
        }),
      );
      overview.instruments.forEach((own, i) => {
        const rows = rowsOf(own);
        expect(maps[i]!.length, own.id).toBe(rows.length);
        if (rows.length === 0) return;
        const { key: first, left } = firsts[i]!;
        expect(left).toBeCloseTo(0, 0);
        // One scale for all of them.
        expect(first).toBe(firsts.find((one) => one !== null)?.key);
        rows.forEach(({ row }, r) => {
          const { label, runs } = maps[i]![r]!;
          const shown = new Map(
            runs.flatMap(([kind, from, length]) =>
              Array.from(
                { length },
                (_, at) => [first + from + at, states.get(kind) ?? kind] as const,
              ),
            ),
          );
          expect(shown.size).toBe(runs.reduce((sum, [, , length]) => sum + length, 0));
          const sorted = (map: ReadonlyMap<number, string>) => [...map].sort((a, b) => a[0] - b[0]);
          expect(sorted(shown), `${own.id}, ${label}`).toEqual(sorted(statesOf(row.cells)));
          if (row.velocity[0] > 1 || row.velocity[1] < 127) {
            const lo = Math.max(row.velocity[0], 1);
            expect(label).toContain(`velocity ${String(lo)}-${String(row.velocity[1])}`);
          }
        });
      });
      expect(complaints).toEqual([]);
      await close();
    });

    it('tell of an articulation that is gone in a line, with what it held', async () => {
      const { browser, pages } = at();
      const { overview, url } = pages.made.demo;
      const { tab, close } = await openPage(browser, url, { javaScriptEnabled: false });
      const seen = await titles(tab);
      overview.instruments.forEach(({ articulations }, i) => {
        expect(seen[i]).toHaveLength(articulations.length);
        articulations.forEach(({ name, rows, zones, zonesKept, bytes }, a) => {
          const { title, bytes: figures, strips } = seen[i]![a]!;
          expect(title).toContain(name);
          expect(strips).toBe(zonesKept > 0 ? rows.length : 0);
          expect(figures).toEqual(zonesKept > 0 ? [bytes.kept, bytes.full] : [bytes.full]);
          const count = (of: number, one: string): string =>
            `${String(of).replace(/\B(?=(\d{3})+$)/g, ' ')} ${one}${of === 1 ? '' : 's'}`;
          expect(title).toContain(count(zones, 'zone'));
          expect(/\bgone\b/.test(title)).toBe(zonesKept === 0);
          if (zonesKept === 0) expect(title).toContain(count(rows.length, 'layer'));
        });
      });
      expect(seen.flat().some(({ strips }) => strips === 0)).toBe(true);
      await close();
    });

    it('begin at one place of the page, whatever their layers are called', async () => {
      const { browser, pages } = at();
      for (const width of [1280, 400]) {
        const { tab, close } = await openPage(browser, pages.made.demo.url, {
          viewport: { width, height: 900 },
        });
        const lefts = await tab
          .locator('#maps tbody svg')
          .evaluateAll((all) => all.map((svg) => Math.round(svg.getBoundingClientRect().left)));
        expect(lefts.length).toBeGreaterThan(50);
        expect(new Set(lefts).size).toBe(1);
        await close();
      }
    });

    it('tell the four states apart by pattern, not by colour alone', async () => {
      const { browser, pages } = at();
      const { tab, close } = await openPage(browser, pages.made.demo.url);
      const looks = await tab.locator('#maps ul li svg path').evaluateAll((paths) =>
        paths.map((path) => {
          const { stroke, fill } = getComputedStyle(path);
          return /url\([^)]*\)/.exec(`${stroke} ${fill}`)?.[0] ?? 'plain';
        }),
      );
      expect(looks).toHaveLength(cellStates.length);
      expect(new Set(looks).size).toBe(cellStates.length);
      await close();
    });

    it('show the witnesses of a cell that is chosen with the pointer', async () => {
      const { browser, pages } = at();
      const { overview, url } = pages.made.demo;
      const { tab, complaints, close } = await openPage(browser, url);
      const chosen = cellsToChoose(overview);
      expect(chosen.map(({ cell }) => cell[2])).toEqual([0, 1, 2, 3]);
      for (const one of chosen) {
        const own = overview.instruments[one.instrument]!;
        const { name } = rowsOf(own)[one.row]!;
        const strip = tab
          .locator('#maps section[data-instrument]')
          .nth(one.instrument)
          .locator('tbody svg')
          .nth(one.row);
        await strip.scrollIntoViewIfNeeded();
        const place = await strip.evaluate((svg, key) => {
          const first = Number(svg.closest('[data-lo]')!.getAttribute('data-lo'));
          const { a } = svg.querySelector<SVGPathElement>('path')!.getScreenCTM()!;
          return { x: (key - first + 0.5) * a, y: svg.getBoundingClientRect().height / 2 };
        }, one.key);
        await strip.click({ position: place });
        const panel = await tab.locator('#panel').innerText();
        expect(panel).toContain(name);
        // What a choice says is where the eye is, however long the map.
        await expect.poll(() => isInView(tab)).toBe(true);
        expect(panel).toContain(`${String(one.cell[4])} of ${String(one.cell[3])}`);
        expect(panel).toContain(cellStates[one.cell[2]]!);
        const witnesses = witnessTexts(overview, one);
        for (const parts of witnesses) {
          const line = panel.split('\n').find((text) => parts.every((part) => text.includes(part)));
          expect(line, `${parts.join(', ')} in ${panel}`).toBeDefined();
        }
        expect(panel.split('\n').filter((text) => / bar \d/.test(text))).toHaveLength(
          witnesses.length,
        );
        expect(panel).toContain(`keepset why ${own.id} --key ${String(one.key)}`);
      }
      expect(complaints).toEqual([]);
      await close();
    });

    it('say where the sample of a key is played that no note asks for itself', async () => {
      const { browser, pages } = at();
      const { overview, url } = pages.made.demo;
      // A key that is not played, beside one that is, in one cell.
      const [found] = overview.instruments.flatMap((own, instrument) =>
        rowsOf(own).flatMap(({ row, keysPlayed }, index) =>
          row.cells.flatMap(([lo, hi, , , , reasons, first, many]) => {
            const sounding = own.witnesses
              .slice(first, first + many)
              .flatMap(([, , , , key]) => (key === null ? [] : [key]));
            const isPlayed = (key: number) => keysPlayed.some(([a, b]) => a <= key && key <= b);
            const key = Array.from({ length: hi - lo + 1 }, (_, i) => lo + i).find(
              (one) => !isPlayed(one) && !sounding.includes(one),
            );
            const isOf = overview.reasons[reasons]?.includes('played') === true;
            return key === undefined || !isOf || sounding.length === 0
              ? []
              : [{ instrument, index, key, sounding: Math.min(...sounding) }];
          }),
        ),
      );
      expect(found).toBeDefined();
      const { instrument, index, key, sounding } = found!;
      for (const width of [1280, 400]) {
        const { tab, close } = await openPage(browser, url, { viewport: { width, height: 900 } });
        const strip = tab
          .locator('#maps section[data-instrument]')
          .nth(instrument)
          .locator('tbody svg')
          .nth(index);
        await strip.scrollIntoViewIfNeeded();
        const place = await strip.evaluate((svg, at) => {
          const first = Number(svg.closest('[data-lo]')!.getAttribute('data-lo'));
          const { a } = svg.querySelector<SVGPathElement>('path')!.getScreenCTM()!;
          return { x: (at - first + 0.5) * a, y: svg.getBoundingClientRect().height / 2 };
        }, key);
        await strip.click({ position: place });
        const panel = await tab.locator('#panel').innerText();
        expect(panel).toMatch(new RegExp(`Its sample is played at [^.]*\\(${String(sounding)}\\)`));
        expect(panel).not.toContain('A note plays it');
        await close();
      }
    });

    it('are walked with the arrows, cell by cell and layer by layer', async () => {
      const { browser, pages } = at();
      const { overview, url } = pages.made.demo;
      const { tab, close } = await openPage(browser, url);
      const index = overview.instruments.findIndex(({ id }) => id === 'horns');
      const [top, below] = rowsOf(overview.instruments[index]!);
      const map = tab.locator('#maps section[data-instrument]').nth(index);
      // One stop of the tab key for each instrument: the arrows lead through its layers.
      const stops = await map.locator('tbody svg[tabindex="0"]').count();
      expect(stops).toBe(1);
      await map.locator('tbody svg[tabindex="0"]').first().focus();
      const panel = (): Promise<string> => tab.locator('#panel').innerText();
      const said = ([, , state, zones, kept]: OverviewCell): string =>
        `${cellStates[state]!}; ${String(kept)} of ${String(zones)}`;
      await tab.keyboard.press('ArrowRight');
      const before = await panel();
      for (let i = 0; i < top!.row.cells.length + 1; i++) await tab.keyboard.press('ArrowLeft');
      for (const cell of top!.row.cells) {
        expect(await panel()).toContain(said(cell));
        expect(await panel()).toContain(`(${String(cell[0])}`);
        await tab.keyboard.press('ArrowRight');
      }
      expect(before).not.toBe('');
      await tab.keyboard.press('ArrowDown');
      const { velocity, controllers } = below!.row;
      const [range] = controllers.map((one) => one.range);
      const [lo, hi] = range ?? velocity;
      expect(await panel()).toContain(`${String(lo)}-${String(hi)}`);
      const outline = await tab.evaluate(
        () => getComputedStyle(document.activeElement!).outlineStyle,
      );
      expect(outline).not.toBe('none');
      await close();
    });
  });
