import * as v from 'valibot';
import { whole } from '../../../notation/document/leaves.ts';
import { list, named, type Shape } from '../../../notation/document/shape-of.ts';
import type { YamlNode } from '../../../notation/yaml/tree.ts';
import type { Range } from '../../../terms/range.ts';
import type { LayerAxis } from '../outline.ts';
import * as leaf from './leaves.ts';
import { known } from './open.ts';

/** What layers may differ in: velocity, or a controller, by its number with or without `cc`. */
export const axis = v.pipe(
  v.string(),
  v.check((name) => /^(?:velocity|(?:cc ?)?(?:\d{1,2}|1[01]\d|12[0-7]))$/iu.test(name), 'axis'),
  v.transform((name) => (/^velocity$/iu.test(name) ? 'velocity' : Number(/\d+/u.exec(name)![0]))),
);

/** More layers than anybody has recorded; there are 128 values. */
const count = whole(1, 128);

/** Layers along one axis, wherever that is said. */
type Layers = Omit<LayerAxis, 'by'>;

const counted: Shape<Layers> = v.pipe(
  count,
  v.transform((number) => ({ count: number, ranges: null })),
);

const written: Shape<Layers> = v.pipe(
  leaf.borders,
  v.transform((ranges) => ({ count: ranges.length, ranges })),
);

/** Where one border is open, none is told: it may lie anywhere. */
const listed: Shape<Layers> = v.pipe(
  list(known(leaf.border)),
  v.check((ranges) => ranges.length > 0 && ranges.length <= 128, 'layer-values'),
  v.transform((ranges) => {
    const borders = ranges.filter((range): range is Range => range !== null);
    return { count: ranges.length, ranges: borders.length < ranges.length ? null : borders };
  }),
);

const isWhole = (node: YamlNode): boolean =>
  node.kind === 'scalar' && typeof node.value === 'number';

/** A number of layers, or their values. */
const along: Shape<Layers> = v.lazy((node: unknown) => {
  const here = node as YamlNode;
  if (here.kind === 'list') return listed;
  return isWhole(here) ? counted : written;
});

const byVelocity: Shape<readonly LayerAxis[]> = v.pipe(
  along,
  v.transform((layers): readonly LayerAxis[] => [{ by: 'velocity', ...layers }]),
);

const byName: Shape<readonly LayerAxis[]> = v.pipe(
  named(axis, known(along)),
  v.transform((all): readonly LayerAxis[] =>
    [...all].flatMap(([by, layers]) => (layers === null ? [] : [{ by, ...layers }])),
  ),
);

/**
 * The layers of an articulation: `3`, `[1-40, 41-127]`, `{ velocity: 3 }`,
 * `{ velocity: [1-40, 41-127], cc1: [0-63, 64-127] }`. What no axis is named for is velocity.
 */
export const layers: Shape<readonly LayerAxis[]> = v.lazy((node: unknown) =>
  (node as YamlNode).kind === 'map' ? byName : byVelocity,
);
