// @ts-check
// What the page does beside being read: sort, filter, choose, theme, print, save. Without it all is there.

(() => {
  /**
   * @typedef {readonly [lo: number, hi: number, state: number, zones: number, kept: number, reasons: number, witness: number, witnesses: number]} Cell
   * @typedef {{ velocity: readonly [number, number], event: string, cells: readonly Cell[] }} Row
   * @typedef {{ name: string, rows: readonly Row[] }} Articulation
   * @typedef {{ id: string, articulations: readonly Articulation[], witnesses: readonly (readonly [number, number, number, number, number | null, number | null])[] }} Instrument
   * @typedef {{ middleC: number, keep: { path: string | null }, instruments: readonly Instrument[], cues: readonly { id: string }[], tracks: readonly (string | null)[], reasons: readonly (readonly string[])[], witnessesPerCell: number }} Overview
   */

  /** @param {string} id */
  const byId = (id) => document.getElementById(id);
  /** @template {Element} T @param {string} selector @param {ParentNode} [from] @returns {T[]} */
  const all = (selector, from = document) =>
    /** @type {T[]} */ ([...from.querySelectorAll(selector)]);

  const dataElement = byId('data');
  const dataText = dataElement?.textContent ?? '';
  /** @type {Overview | null} */
  let parsed = null;
  /** Parsed when it is asked for: it may be large. @returns {Overview} */
  const data = () => (parsed ??= JSON.parse(dataText));

  /** Characters that act on a text instead of standing in it are written out. @param {string} text */
  const printable = (text) =>
    text.replace(
      /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu,
      (found) => `\\u{${(found.codePointAt(0) ?? 0).toString(16)}}`,
    );

  for (const hidden of all('#tools, .q, .j')) hidden.removeAttribute('hidden');

  // The state of the page, all of it in the part of its address behind the number sign.

  /** @type {{ sel: string, q: string, sort: string }} */
  const state = { sel: '', q: '', sort: '' };

  const readHash = () => {
    const text = location.hash.slice(1);
    const isState = text.includes('=');
    const params = new URLSearchParams(isState ? text : '');
    state.q = isState ? (params.get('q') ?? '') : state.q;
    state.sort = isState ? (params.get('sort') ?? '') : state.sort;
    let bare = text;
    try {
      bare = decodeURIComponent(text);
    } catch {
      // A broken escape is taken as it is.
    }
    state.sel = isState ? (params.get('sel') ?? '') : bare;
  };

  const writeHash = () => {
    const params = new URLSearchParams();
    for (const key of /** @type {const} */ (['sel', 'q', 'sort'])) {
      if (state[key] !== '') params.set(key, state[key]);
    }
    const hash = params.toString();
    history.replaceState(null, '', hash === '' ? '#' : `#${hash}`);
  };

  // Instruments: sorting, filtering, moving.

  const table = /** @type {HTMLTableElement | null} */ (byId('all'));
  const body = table?.tBodies[0];
  const rows = /** @type {HTMLTableRowElement[]} */ (body ? [...body.rows] : []);
  const heads = /** @type {HTMLTableCellElement[]} */ (
    table?.tHead?.rows[0] ? [...table.tHead.rows[0].cells] : []
  );
  const box = /** @type {HTMLInputElement | null} */ (byId('q'));
  const count = byId('shown');

  /** @param {HTMLTableRowElement} row @param {number} column @returns {number | string} */
  const valueOf = (row, column) => {
    const cell = row.cells[column];
    const exact = cell?.dataset['bytes'] ?? cell?.dataset['v'];
    if (exact !== undefined) return Number(exact);
    const text = cell?.textContent ?? '';
    return /^\d+$/.test(text) ? Number(text) : text;
  };

  const sortRows = () => {
    const found = /^(\d+)([ad])$/.exec(state.sort);
    const column = found ? Number(found[1]) : -1;
    const sign = found?.[2] === 'd' ? -1 : 1;
    heads.forEach((head, i) => {
      if (i === column) head.setAttribute('aria-sort', sign === 1 ? 'ascending' : 'descending');
      else head.removeAttribute('aria-sort');
    });
    const order = rows.map((row, i) => ({ row, i, value: column < 0 ? 0 : valueOf(row, column) }));
    order.sort((a, b) => {
      const [x, y] = [a.value, b.value];
      if (x === y) return a.i - b.i;
      if (typeof x === 'number' && typeof y === 'number') return sign * (x - y);
      return sign * (String(x) < String(y) ? -1 : 1);
    });
    body?.append(...order.map(({ row }) => row));
  };

  heads.forEach((head, column) => {
    const button = document.createElement('button');
    button.type = 'button';
    button.append(...head.childNodes);
    head.append(button);
    button.addEventListener('click', () => {
      const isNumber = !head.classList.contains('l');
      const first = isNumber ? 'd' : 'a';
      const other = isNumber ? 'a' : 'd';
      state.sort = state.sort === `${column}${first}` ? `${column}${other}` : `${column}${first}`;
      sortRows();
      writeHash();
    });
  });

  const filterRows = () => {
    const words = state.q.toLowerCase().split(/\s+/).filter(Boolean);
    let left = 0;
    for (const row of rows) {
      const text = (row.textContent ?? '').replaceAll('\u00a0', ' ').toLowerCase();
      row.hidden = !words.every((word) => text.includes(word));
      if (!row.hidden) left += 1;
    }
    if (count) count.textContent = `${left} of ${rows.length} shown`;
  };

  /** @param {string} text */
  const setFilter = (text) => {
    state.q = text;
    if (box && box.value !== text) box.value = text;
    filterRows();
    writeHash();
  };
  box?.addEventListener('input', () => setFilter(box.value));

  /** Marks what was chosen: an instrument's row, or a step. */
  const markChosen = () => {
    for (const row of all('tr.chosen')) row.classList.remove('chosen');
    const link = rows.find((row) => row.querySelector('a')?.hash === `#${state.sel}`);
    link?.classList.add('chosen');
    const step = byId(state.sel);
    if (step instanceof HTMLTableRowElement) step.classList.add('chosen');
  };

  /** @param {number} by */
  const moveRow = (by) => {
    const shown = /** @type {HTMLTableRowElement[]} */ (body ? [...body.rows] : []).filter(
      (row) => !row.hidden,
    );
    if (shown.length === 0) return;
    const focused = document.activeElement?.closest('tr');
    const at = shown.findIndex((row) => row === focused);
    const chosen = at >= 0 ? at : shown.findIndex((row) => row.classList.contains('chosen'));
    const next = chosen < 0 ? (by > 0 ? 0 : shown.length - 1) : chosen + by;
    const link = shown[Math.max(0, Math.min(shown.length - 1, next))]?.querySelector('a');
    if (!link) return;
    link.focus();
    state.sel = link.hash.slice(1);
    markChosen();
    writeHash();
  };

  /** Goes to a place of the page and gives it the focus. @param {string} id */
  const goTo = (id) => {
    const target = byId(id);
    if (!target) return;
    const focus = target.matches('section') ? target.querySelector('h2, h3') : target;
    if (focus instanceof HTMLElement) {
      if (!focus.hasAttribute('tabindex')) focus.tabIndex = -1;
      focus.focus({ preventScroll: true });
    }
    target.scrollIntoView();
  };

  document.addEventListener('click', (event) => {
    const link = event.target instanceof Element ? event.target.closest('a') : null;
    if (!link || !link.hash || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    state.sel = decodeURIComponent(link.hash.slice(1));
    markChosen();
    writeHash();
    goTo(state.sel);
  });

  document.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const target = event.target instanceof Element ? event.target : document.body;
    const typing = target.matches('input, textarea, select');
    if (event.key === 'Escape' && (typing || state.q !== '')) {
      setFilter('');
      if (typing && box) box.blur();
      return;
    }
    if (typing) {
      if (event.key !== 'ArrowDown' && event.key !== 'Enter') return;
      event.preventDefault();
      moveRow(1);
      return;
    }
    const inTable = table?.contains(target) === true;
    if (event.key === '/') {
      event.preventDefault();
      box?.focus();
      box?.select();
    } else if (event.key === 'j' || (inTable && event.key === 'ArrowDown')) {
      event.preventDefault();
      moveRow(1);
    } else if (event.key === 'k' || (inTable && event.key === 'ArrowUp')) {
      event.preventDefault();
      moveRow(-1);
    }
  });

  // Maps: a place that is chosen shows what keeps it.

  const pitches = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'];
  /** @param {number} key */
  const keyLabel = (key) =>
    `${pitches[key % 12]}${Math.floor(key / 12) - 5 + data().middleC} (${key})`;
  /** @param {number} lo @param {number} hi */
  const keysLabel = (lo, hi) => {
    if (lo === hi) return keyLabel(lo);
    const [from, to] = [keyLabel(lo), keyLabel(hi)].map((label) => label.split(' ')[0]);
    return `${from}-${to} (${lo}-${hi})`;
  };
  /** A word as it can be typed into a command. @param {string} name */
  const shellWord = (name) => {
    const text = printable(name);
    if (/^[\p{L}\p{N}._/][\p{L}\p{N}._/-]*$/u.test(text)) return text;
    return `'${text.replaceAll("'", "'\\''")}'`;
  };
  const reasonWords = new Map(
    all('[data-reason]').map((element) => [
      element.getAttribute('data-reason') ?? '',
      element.textContent ?? '',
    ]),
  );
  const states = ['kept', 'doubtful', 'spare', 'dropped'];
  const panel = byId('panel');
  const keyWidth = 7;

  /** @param {string} text @param {string} [tag] */
  const line = (text, tag = 'p') => {
    const element = document.createElement(tag);
    element.textContent = text;
    return element;
  };

  /** Where a strip stands in the data. @param {Element} svg */
  const placeOf = (svg) => {
    const section = /** @type {HTMLElement} */ (svg.closest('section'));
    const row = /** @type {HTMLTableRowElement} */ (svg.closest('tr'));
    const group = /** @type {HTMLTableSectionElement} */ (row.parentElement);
    const groups = [.../** @type {HTMLTableElement} */ (group.parentElement).tBodies];
    const instrument = data().instruments[Number(section.id.slice(1))];
    const articulation = instrument?.articulations[groups.indexOf(group)];
    const own = articulation?.rows[[...group.rows].indexOf(row) - 1];
    const lo = Number(section.dataset['lo']);
    return { instrument, articulation, row: own, lo, name: row.cells[0]?.textContent ?? '', group };
  };

  /** @type {{ svg: Element, cell: number } | null} */
  let chosen = null;

  /** @param {Element} svg @param {number} index */
  const choose = (svg, index) => {
    const { instrument, articulation, row, lo, name, group } = placeOf(svg);
    const cell = row?.cells[index];
    if (!panel || !instrument || !articulation || !cell) return;
    const overview = data();
    const [from, to, stateOf, zones, kept, reasons, first, many] = cell;
    for (const old of all('path.chosen')) old.remove();
    const outline = document.createElementNS('http://www.w3.org/2000/svg', 'path');
    outline.setAttribute('class', 'chosen');
    const [x, width] = [(from - lo) * keyWidth, (to - from + 1) * keyWidth];
    outline.setAttribute('d', `M${x + 1} 1h${width - 2}v12h${2 - width}z`);
    svg.append(outline);
    for (const other of all('svg.s', group)) other.setAttribute('tabindex', '-1');
    svg.setAttribute('tabindex', '0');

    const words = (overview.reasons[reasons] ?? []).map((one) => reasonWords.get(one) ?? one);
    const witnesses = instrument.witnesses.slice(first, first + many).map((witness) => {
      const [cue, track, bar, beat, key, velocity] = witness;
      const who = overview.tracks[track];
      return [
        `${printable(overview.cues[cue]?.id ?? '')} bar ${bar} beat ${beat}`,
        who === null || who === undefined || who.trim() === ''
          ? 'track without a name'
          : printable(who),
        ...(key === null
          ? []
          : [keyLabel(key) + (velocity === null ? '' : ` velocity ${velocity}`)]),
      ].join(', ');
    });
    const keep = overview.keep.path ?? 'keep.json';
    const command = `keepset why ${shellWord(instrument.id)} --key ${from} --keep ${shellWord(keep)}`;
    const heard = document.createElement('ul');
    heard.className = 'p';
    heard.append(...witnesses.map((text) => line(text, 'li')));
    const ask = line('');
    ask.append(stateOf === 3 ? 'What came nearest: ' : 'More: ', line(command, 'code'));
    const head = line('');
    head.append(line(`${printable(articulation.name)}, ${name}, ${keysLabel(from, to)}: `, 'b'));
    head.append(`${states[stateOf]}; ${kept} of ${zones} ${zones === 1 ? 'zone' : 'zones'} kept.`);
    panel.hidden = false;
    const after = svg.closest('.w');
    if (after && panel.previousElementSibling !== after) after.after(panel);
    panel.replaceChildren(
      head,
      ...(words.length === 0 ? [] : [line(words.join(' '))]),
      ...(witnesses.length === 0 ? [] : [heard]),
      ask,
    );
    chosen = { svg, cell: index };
  };

  /** @param {SVGElement} svg @param {number} by */
  const moveCell = (svg, by) => {
    const cells = placeOf(svg).row?.cells ?? [];
    const at = chosen?.svg === svg ? chosen.cell + by : by > 0 ? 0 : cells.length - 1;
    choose(svg, Math.max(0, Math.min(cells.length - 1, at)));
  };

  /** To the row above or below, at the same key. @param {SVGElement} svg @param {number} by */
  const moveStrip = (svg, by) => {
    const strips = /** @type {SVGElement[]} */ (all('svg.s', placeOf(svg).group));
    const next = strips[strips.indexOf(svg) + by];
    if (!next) return;
    const key = chosen?.svg === svg ? placeOf(svg).row?.cells[chosen.cell]?.[0] : undefined;
    const cells = placeOf(next).row?.cells ?? [];
    const at = cells.findIndex(([lo, hi]) => key !== undefined && lo <= key && key <= hi);
    next.focus();
    choose(next, Math.max(0, at));
  };

  for (const group of all('#maps tbody')) {
    const title = group.querySelector('th b')?.textContent ?? '';
    all('svg.s', group).forEach((svg, i) => {
      const name = svg.closest('tr')?.cells[0]?.textContent ?? '';
      svg.setAttribute('role', 'group');
      svg.setAttribute('aria-label', `${title}, ${name}: keys, arrows choose`);
      svg.setAttribute('tabindex', i === 0 ? '0' : '-1');
    });
  }

  const maps = byId('maps');
  maps?.addEventListener('click', (event) => {
    const svg = event.target instanceof Element ? event.target.closest('tbody svg.s') : null;
    if (!svg) return;
    const { row, lo } = placeOf(svg);
    const left = svg.getBoundingClientRect().left;
    const key = lo + Math.floor((event.clientX - left) / keyWidth);
    const index = row?.cells.findIndex(([from, to]) => from <= key && key <= to) ?? -1;
    /** @type {SVGElement} */ (svg).focus({ preventScroll: true });
    if (index >= 0) choose(svg, index);
  });
  maps?.addEventListener('keydown', (event) => {
    const svg = event.target instanceof SVGElement ? event.target.closest('svg.s') : null;
    if (!(svg instanceof SVGElement) || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === 'ArrowRight') moveCell(svg, 1);
    else if (event.key === 'ArrowLeft') moveCell(svg, -1);
    else if (event.key === 'ArrowDown') moveStrip(svg, 1);
    else if (event.key === 'ArrowUp') moveStrip(svg, -1);
    else if (event.key === 'Enter' || event.key === ' ') moveCell(svg, chosen?.svg === svg ? 0 : 1);
    else return;
    event.preventDefault();
  });

  // Boxes that have nothing to scroll need no focus.

  const settleBoxes = () => {
    const boxes = /** @type {HTMLElement[]} */ (all('.w'));
    const scrolls = boxes.map(
      (one) => one.scrollWidth > one.clientWidth || one.scrollHeight > one.clientHeight,
    );
    boxes.forEach((one, i) => {
      if (scrolls[i]) one.tabIndex = 0;
      else one.removeAttribute('tabindex');
    });
  };
  settleBoxes();
  addEventListener('resize', settleBoxes);

  // Colours, paper, data.

  const themes = /** @type {HTMLElement[]} */ (all('[data-theme]'));
  for (const button of themes) {
    button.addEventListener('click', () => {
      document.documentElement.classList.remove('light', 'dark');
      const theme = button.dataset['theme'] ?? '';
      if (theme !== '') document.documentElement.classList.add(theme);
      for (const one of themes) one.setAttribute('aria-pressed', String(one === button));
    });
  }

  for (const button of /** @type {HTMLElement[]} */ (all('[data-print]'))) {
    button.addEventListener('click', () => {
      document.documentElement.classList.add(`print-${button.dataset['print']}`);
      print();
    });
  }
  addEventListener('afterprint', () =>
    document.documentElement.classList.remove('print-all', 'print-worklist'),
  );

  byId('save')?.addEventListener('click', () => {
    const link = document.createElement('a');
    link.href = URL.createObjectURL(new Blob([dataText], { type: 'application/json' }));
    link.download = 'keepset-report.json';
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  });

  const restore = () => {
    readHash();
    if (box) box.value = state.q;
    sortRows();
    filterRows();
    markChosen();
    if (state.sel !== '') {
      writeHash();
      goTo(state.sel);
    }
  };
  addEventListener('hashchange', restore);
  restore();
})();
