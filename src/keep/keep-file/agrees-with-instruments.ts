import type { Instrument } from '../../instruments/instrument.ts';
import { selects } from '../../instruments/switches.ts';
import type { DroppedZone, KeptZone, Plan, PlanInstrument } from '../plan.ts';
import { Disagreements } from './agreement/disagreements.ts';
import { isOneDefinition } from './one-definition.ts';

/**
 * Makes sure that a keep file says of its instruments what they are: their zones, samples and
 * articulations by name. Instruments of which another definition, or another preset, is at hand now are
 * left aside.
 *
 * @param instruments those at hand, by id
 * @param path the keep file as the user named it
 * @throws {InputError} `keep-file-disagrees`, once for each of the first that do not
 */
export const agreesWithInstruments = (
  plan: Plan,
  instruments: ReadonlyMap<string, Instrument>,
  path: string,
): void => {
  const found = new Disagreements(path);
  for (const one of plan.instruments) {
    const instrument = instruments.get(one.id);
    if (instrument === undefined || !isOneDefinition(one, instrument)) continue;
    found.about(one.id);
    wholeAgrees(one, instrument, found);
    presetZonesAgree(one, instrument, found);
    articulationsAgree(one, instrument, found);
    zonesAgree(one, instrument, found);
    choicesAgree(one, instrument, found);
  }
  found.settle();
};

const wholeAgrees = (
  { zones, samples, bytes }: PlanInstrument,
  instrument: Instrument,
  found: Disagreements,
): void => {
  found.same('zones', zones, instrument.zones.length);
  found.same('samples', samples, instrument.samples.length);
  const unknown = instrument.samples.filter(({ present }) => !present).length;
  found.same('samples-unknown', bytes.unknownSamples, unknown);
};

/** A kept zone needs a way in, and every way that is listed leads to a kept zone. */
const presetZonesAgree = (
  { kept, presetZones }: PlanInstrument,
  { zones, program, presetZones: ways }: Instrument,
  found: Disagreements,
): void => {
  if (ways.length === 0) {
    for (const one of presetZones) found.never('preset-zone', one);
    return;
  }
  const listed = new Set(presetZones);
  const open = new Set(kept.map(({ zone }) => zone));
  const useful = new Set<number>();
  const started = new Set<number>();
  const entered = new Set<number>();
  program.starts.forEach(({ zone }, i) => {
    const { id } = zones[zone]!;
    const way = ways[i]!;
    started.add(id);
    if (open.has(id)) useful.add(way);
    if (listed.has(way)) entered.add(id);
  });
  for (const way of listed) found.known('preset-zone', way, useful);
  for (const id of open) if (started.has(id)) found.known('zone-entry', id, entered);
};

/** What was chosen, was chosen with a switch that the instrument has. */
const choicesAgree = (
  { copies }: PlanInstrument,
  { program: { signals } }: Instrument,
  found: Disagreements,
): void => {
  const switches = new Set(
    signals.flatMap((signal, i) => (selects(signal) || signal.kind === 'patch' ? [i] : [])),
  );
  for (const { name, chosen } of copies) {
    for (const { signal } of chosen) found.known('copy-switch', signal, switches, name);
  }
};

const articulationsAgree = (
  { articulations }: PlanInstrument,
  instrument: Instrument,
  found: Disagreements,
): void => {
  found.same('articulations', articulations.length, instrument.articulations.length);
  const started = instrument.articulations.map(() => new Set<number>());
  for (const { zone, articulation } of instrument.program.starts) started[articulation]!.add(zone);
  instrument.articulations.forEach(({ name, switch: selector, layers }, i) => {
    const one = articulations[i];
    if (one === undefined) return;
    found.same('articulation', one.name, name);
    found.same('articulation-switch', one.switch ?? '-', selector ?? '-', name);
    found.same('layers', one.layers.length, layers.length, name);
    layers.forEach(({ zones }, layer) => {
      const own = one.layers[layer];
      const live = zones.filter((zone) => started[i]!.has(zone)).length;
      if (own !== undefined) found.same('layer-zones', own.zones, live, name);
    });
  });
};

const zonesAgree = (
  { kept, dropped }: PlanInstrument,
  { zones, samples, program }: Instrument,
  found: Disagreements,
): void => {
  const listed = new Map([...kept, ...dropped].map((zone) => [zone.zone, zone]));
  const articulations = zones.map(() => new Set<number>());
  for (const { zone, articulation } of program.starts) articulations[zone]!.add(articulation);
  zones.forEach(({ id, key, samples: own }, i) => {
    const zone = listed.get(id);
    if (zone === undefined) {
      found.known('zone', id, listed);
      return;
    }
    listed.delete(id);
    const names = isMute(zone) ? [] : own.map((sample) => samples[sample]!.name);
    found.same('zone-name', zone.key ?? '-', key ?? '-', id);
    found.same('zone-samples', zone.samples.join(', '), names.join(', '), id);
    const indices = [...articulations[i]!].sort((a, b) => a - b);
    found.same('zone-articulations', zone.articulations.join(', '), indices.join(', '), id);
  });
  for (const id of listed.keys()) found.never('zone', id);
};

/** It stays without its samples. */
const isMute = (zone: KeptZone | DroppedZone): boolean =>
  'reasons' in zone && zone.reasons.includes('mutes');
