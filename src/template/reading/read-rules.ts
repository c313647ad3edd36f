import type { InferOutput } from 'valibot';
import { checkDeclared } from './declared.ts';
import { keys } from './keys.ts';
import { makeRoute } from '../routes/make-route.ts';
import type { Reader } from '../../notation/document/reader.ts';
import type { RouteFields } from '../routes/route-fields.ts';
import type { Route } from '../route.ts';
import { shapes } from './shapes.ts';
import { hasUnknownKeys } from '../../notation/document/unknown-keys.ts';
import { entryOf } from '../../notation/yaml/tree.ts';

type RuleFields = InferOutput<typeof shapes.rule>;

/** The key of a rule that holds a field of it. */
const keyOf: Readonly<Partial<Record<keyof RouteFields, string>>> = {
  tracks: 'track',
  instruments: 'instrument',
};

/** Codes for what a rule lacks; a key of it that is misspelt has then been told already. */
const lacking: ReadonlySet<string> = new Set(['route-without-tracks', 'route-without-outcome']);

const routeFields = ({
  track,
  join,
  cue,
  port,
  channel,
  instrument,
  articulation,
  ...rest
}: RuleFields): RouteFields => ({
  tracks: track ?? null,
  join: join ?? null,
  joinWord: null,
  cue: cue ?? null,
  port: port ?? null,
  channel: channel ?? null,
  instruments: instrument ?? [],
  articulation: articulation ?? null,
  transpose: rest.transpose ?? 0,
  velocity: rest.velocity ?? 1,
  controllers: rest.controllers ?? new Map<number, number>(),
  printed: rest.printed ?? false,
  ignore: rest.ignore ?? false,
});

/** The rules of `routes:`, in file order, but for those with a fault. */
export const readRules = (reader: Reader, ids: ReadonlySet<string>): readonly Route[] => {
  const { faults } = reader;
  const routes: Route[] = [];
  for (const [index, node] of reader.items('routes').entries()) {
    const fields = reader.read(shapes.rule, node, ['routes', index]);
    if (fields === null) continue;
    const instruments = entryOf(node, 'instrument')?.value;
    const places = instruments?.kind === 'list' ? instruments.items : [instruments ?? node];
    for (const [i, id] of (fields.instrument ?? []).entries()) {
      checkDeclared(reader, 'instrument', id, places[i]?.at ?? node.at, ids);
    }
    const made = makeRoute(routeFields(fields), faults.file, node.at);
    if (!('problem' in made)) routes.push(made);
    else if (!(lacking.has(made.problem.code) && hasUnknownKeys(node, keys.rule))) {
      const { problem, field } = made;
      const at = field === null ? node.at : reader.placeIn(node, keyOf[field] ?? field);
      faults.take({ ...problem, at });
    }
  }
  return routes;
};
