// @ts-check
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
  const column = found && heads[Number(found[1])] ? Number(found[1]) : -1;
  if (column < 0) state.sort = '';
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

/** Said where the rows would be. */
const none = document.createElement('p');
none.textContent = 'No instrument matches.';
none.hidden = true;
table?.after(none);

const filterRows = () => {
  const words = state.q.toLowerCase().split(/\s+/).filter(Boolean);
  let left = 0;
  for (const row of rows) {
    const text = (row.textContent ?? '').replaceAll('\u00a0', ' ').toLowerCase();
    row.hidden = !words.every((word) => text.includes(word));
    if (!row.hidden) left += 1;
  }
  if (count) count.textContent = `${left} of ${rows.length} shown`;
  none.hidden = left > 0 || rows.length === 0;
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
  writeHash('next');
  goTo(state.sel);
});

let letters = true;
const hint = box?.closest('.q');
if (hint) {
  const button = document.createElement('button');
  button.type = 'button';
  button.textContent = 'Letter keys off';
  button.addEventListener('click', () => {
    letters = !letters;
    button.textContent = letters ? 'Letter keys off' : 'Letter keys on';
  });
  hint.append(' ', button);
}

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
  const isNear = target === document.body || target.closest('#instruments') !== null;
  const isLetter = ['/', 'j', 'k'].includes(event.key);
  // Whoever dictates, or has chosen something else, means other things by a letter (WCAG 2.1.4).
  if (isLetter && !(letters && isNear)) return;
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
