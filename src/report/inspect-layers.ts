import type { InspectedLayer, Inspection } from '../keep/inspect.ts';
import { fixed, name, several, span, type Cell } from './cell.ts';
import { formatCount } from './format.ts';
import { nounsOf } from './instrument-nouns.ts';
import type { Look } from './look.ts';
import { layOut, notShown, type Column } from './table.ts';

/** The ranges of a layer's controllers, `CC1 0-63`. */
const controllersCell = ({ controllers }: InspectedLayer): Cell =>
  several({
    items: controllers.map(({ number, range: [lo, hi] }) => ({
      text: `CC${String(number)} ${lo === hi ? String(lo) : `${String(lo)}-${String(hi)}`}`,
      short: String(number),
    })),
    prefix: 'CC ',
    one: 'controller',
    many: 'controllers',
  });

/** The layers of every articulation, a row each; the name stands before the first. */
export const layersTable = (
  { instrument, articulations }: Inspection,
  look: Look,
): readonly string[] => {
  const columns: readonly Column[] = [
    { title: [nounsOf(instrument).title], align: 'left', min: 10 },
    { title: ['Layer'], align: 'right', leaveOut: 1 },
    { title: ['Velocity'], align: 'left' },
    { title: ['Controllers'], align: 'left', min: 12, leaveOut: 0 },
    { title: ['Zones'], align: 'right' },
  ];
  const rows = articulations.flatMap((articulation) =>
    articulation.layers.map((layer, i): readonly Cell[] => [
      i === 0 ? name(articulation.name, look) : fixed(''),
      fixed(`${String(i + 1)}/${String(articulation.layers.length)}`),
      span(layer.velocity),
      controllersCell(layer),
      fixed(formatCount(layer.zones)),
    ]),
  );
  if (rows.length === 0) return ['There are no layers.'];
  const { text, leftOut } = layOut(columns, rows, look);
  return [look.colors.bold('Layers'), '', text, ...notShown(leftOut, look)];
};
