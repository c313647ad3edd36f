// @ts-check
// Maps: a place that is chosen shows what keeps it.

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

/** Those of its instrument: one stop of the tab key, and the arrows from there. @param {Element} svg */
const stripsBeside = (svg) =>
  /** @type {SVGElement[]} */ (all('tbody svg.s', /** @type {Element} */ (svg.closest('section'))));

/** Where a strip stands in the data. @param {Element} svg */
const placeOf = (svg) => {
  const section = /** @type {HTMLElement} */ (svg.closest('.m'));
  const row = /** @type {HTMLTableRowElement} */ (svg.closest('tr'));
  const group = /** @type {HTMLTableSectionElement} */ (row.parentElement);
  const groups = [.../** @type {HTMLTableElement} */ (group.parentElement).tBodies];
  const instrument = data().instruments[Number(section.id.slice(1))];
  const articulation = instrument?.articulations[groups.indexOf(group)];
  const own = articulation?.rows[[...group.rows].indexOf(row) - 1];
  const lo = Number(byId('maps')?.dataset['lo']);
  return { instrument, articulation, row: own, lo, name: row.cells[0]?.textContent ?? '' };
};

/** The command that tells more of a key. @param {string} id @param {number} key */
const whyCommand = (id, key) => {
  const { keep, template } = data();
  const path = shellWord(keep.path ?? 'keep.json');
  const by = template === null ? '' : ` --template ${shellWord(template.path)}`;
  return `keepset why ${shellWord(id)} --key ${key} --keep ${path}${by}`;
};

/**
 * Why a place stays. A zone answers at more keys than those that are played: at another one, what is
 * said is where its sample is.
 *
 * @param {Cell} cell @param {Articulation} articulation @param {Instrument} instrument
 * @param {number} [at]
 */
const wordsFor = (cell, articulation, instrument, at) => {
  const [from, to, , , , reasons, first, many] = cell;
  const played = instrument.witnesses.slice(first, first + many).map((witness) => witness[4]);
  const others = [...new Set(played.filter((key) => key !== null))].sort((a, b) => a - b);
  const [lo, hi] = at === undefined ? [from, to] : [at, at];
  const isPlayed = articulation.keysPlayed.some(([low, high]) => low <= lo && hi <= high);
  return (data().reasons[reasons] ?? []).map((one) =>
    one === 'played' && !isPlayed && others.length > 0 && !(lo === hi && others.includes(lo))
      ? `Its sample is played at ${others.map(keyLabel).join(', ')}.`
      : (reasonWords.get(one) ?? one),
  );
};

/** Read aloud where the panel is not: it stays where it is, and is always there. */
const said = document.createElement('div');
said.className = 'said';
said.setAttribute('role', 'status');
document.body.append(said);

/** @type {{ svg: Element, cell: number } | null} */
let chosen = null;

/** @param {Element} svg @param {number} index @param {number} [at] the key, where one was chosen */
const choose = (svg, index, at) => {
  const { instrument, articulation, row, lo, name } = placeOf(svg);
  const cell = row?.cells[index];
  if (!panel || !instrument || !articulation || !cell) return;
  const overview = data();
  const [from, to, stateOf, zones, kept, , first, many] = cell;
  for (const old of all('path.chosen')) old.remove();
  const outline = document.createElementNS('http://www.w3.org/2000/svg', 'path');
  outline.setAttribute('class', 'chosen');
  const [x, width] = [(from - lo) * keyWidth, (to - from + 1) * keyWidth];
  outline.setAttribute('d', `M${x + 1} 1h${width - 2}v12h${2 - width}z`);
  svg.append(outline);
  for (const other of stripsBeside(svg)) other.setAttribute('tabindex', '-1');
  svg.setAttribute('tabindex', '0');

  const words = wordsFor(cell, articulation, instrument, at);
  const witnesses = instrument.witnesses.slice(first, first + many).map((witness) => {
    const [cue, track, bar, beat, key, velocity] = witness;
    const who = overview.tracks[track];
    return [
      `${printable(overview.cues[cue]?.id ?? '')} bar ${bar} beat ${Math.floor(beat)}`,
      who === null || who === undefined || who.trim() === ''
        ? 'track without a name'
        : printable(who),
      ...(key === null ? [] : [keyLabel(key) + (velocity === null ? '' : ` velocity ${velocity}`)]),
    ].join(', ');
  });
  const heard = document.createElement('ul');
  heard.className = 'p';
  heard.append(...witnesses.map((text) => line(text, 'li')));
  const ask = line(stateOf === 3 ? 'What came nearest: ' : 'More: ');
  // Of a plan that was made for the page there is no keep file yet.
  if (overview.keep.path === null) ask.append('write it with keepset plan -o keep.json, then ');
  ask.append(line(whyCommand(instrument.id, at ?? from), 'code'));
  const where =
    at === undefined || from === to
      ? keysLabel(from, to)
      : `${keyLabel(at)} in ${keysLabel(from, to)}`;
  const fate = `${states[stateOf]}; ${kept} of ${zones} ${zones === 1 ? 'zone' : 'zones'} kept${from === to ? '' : ' at each key'}.`;
  const head = line('');
  head.append(line(`${printable(articulation.name)}, ${name}, ${where}: `, 'b'), fate);
  said.textContent = `${name}, ${where}: ${fate} ${words.join(' ')}`;
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
  const strips = stripsBeside(svg);
  const next = strips[strips.indexOf(svg) + by];
  if (!next) return;
  const key = chosen?.svg === svg ? placeOf(svg).row?.cells[chosen.cell]?.[0] : undefined;
  const cells = placeOf(next).row?.cells ?? [];
  const at = cells.findIndex(([lo, hi]) => key !== undefined && lo <= key && key <= hi);
  next.focus();
  choose(next, Math.max(0, at));
};

for (const section of all('#maps section')) {
  all('tbody svg.s', section).forEach((svg, i) => {
    const title = svg.closest('tbody')?.querySelector('th b')?.textContent ?? '';
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
  // As wide as a key is drawn, which the window decides.
  const { a, e } = svg.querySelector('path')?.getScreenCTM() ?? { a: keyWidth, e: 0 };
  const key = lo + Math.floor((event.clientX - e) / a);
  const index = row?.cells.findIndex(([from, to]) => from <= key && key <= to) ?? -1;
  /** @type {SVGElement} */ (svg).focus({ preventScroll: true });
  if (index >= 0) choose(svg, index, key);
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
