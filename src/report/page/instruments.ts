import { printable } from '../../terms/printable.ts';
import type { Overview } from '../../overview/overview.ts';
import { tableUnit } from '../format.ts';
import { bytesCell } from './figures.ts';
import { markup, type Html } from './html.ts';
import { machineName, shown } from './names.ts';
import { formatCount, formatShare } from './numbers.ts';
import { scrollBox } from './scroll-box.ts';

const columns = [
  ['l', 'Instrument'],
  ['l', 'Machine'],
  ['l', 'Player'],
  ['', 'Articulations'],
  ['', 'Zones'],
  ['', 'Now'],
  ['', 'After'],
  ['', 'Saved'],
  ['', 'Share'],
  ['', 'Cues'],
  ['l', 'Doubts'],
] as const;

/** All instruments. The page's script makes the headings sort and the box filter. */
export const instrumentsSection = (overview: Overview): Html => {
  const { instruments, cues } = overview;
  const unit = tableUnit(Math.max(0, ...instruments.map(({ bytes }) => bytes.full)));
  const rows = instruments.map((one, i) => {
    const { id, machine, player, articulations, zones, zonesKept, bytes, doubts } = one;
    const stay = articulations.filter((own) => own.zonesKept > 0).length;
    const using = cues.filter(({ needs }) => needs.some(([of]) => of === i)).length;
    const saved = bytes.full - bytes.kept;
    return markup`<tr data-instrument="${printable(id)}"><th scope=row><a href="#i${i}">${shown(id)}</a><td class=l>${shown(machineName(overview, machine))}<td class=l>${shown(player)}<td data-v=${stay}>${stay}/${articulations.length}<td data-v=${zonesKept}>${formatCount(zonesKept)}/${formatCount(zones)}${bytesCell(bytes.full, unit)}${bytesCell(bytes.kept, unit)}${bytesCell(saved, unit)}<td data-v=${bytes.full === 0 ? 0 : saved / bytes.full}>${formatShare(saved, bytes.full) ?? ''}<td>${using}<td class=l>${doubts
      .filter(({ settled }) => settled === null)
      .map(({ name }) => name)
      .join(', ')}`;
  });
  return markup`<section id=instruments aria-labelledby="instruments-h"><h2 id=instruments-h>Instruments</h2><p class=n>Articulations and zones: those that stay, of all. Memory in ${unit.name}, of the instrument by itself; instruments that share samples take less together. Share: what is saved of the instrument. Doubts: those that nobody has answered for it.</p><p class=q hidden><label for=q>Filter</label> <input id=q type=search autocomplete=off spellcheck=false /> <output id=shown for=q></output> <span class=n><kbd>/</kbd> to filter, <kbd>Esc</kbd> to clear, <kbd>j</kbd> <kbd>k</kbd> or arrows to move, <kbd>Enter</kbd> for the map</span></p>${scrollBox('Table of instruments', markup`<table class=t id=all><thead><tr>${columns.map(([side, title]) => markup`<th scope=col${side === 'l' && markup` class=l`}>${title}`)}<tbody>${rows}</table>`)}</section>`;
};
