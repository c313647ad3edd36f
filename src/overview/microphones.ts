import { partMemory } from '../memory/loaded-memory.ts';
import { sharingGroups } from '../memory/sharing-groups.ts';
import type { LoadedInstrument } from '../memory/loaded.ts';
import type { ZoneMask } from '../memory/zone-mask.ts';
import { keptZones } from '../keep/check/kept-zones.ts';
import type { SlottedInstrument } from '../trim/worklist/slots.ts';
import type { OverviewMicrophone } from './overview-instrument.ts';

/** The microphones that the zones of each instrument name, by its id. */
export const overviewMicrophones = (
  all: readonly SlottedInstrument[],
): ReadonlyMap<string, readonly OverviewMicrophone[]> => {
  const full = all.map(fullOf);
  const machines = [...new Set(all.map(({ machine }) => machine))];
  // What instruments share is loaded once between them: none of them can be told what it takes of that.
  const sharing = new Set(
    machines.flatMap((machine) => {
      const own = all.flatMap((one, i) => (one.machine === machine ? [i] : []));
      return sharingGroups(own.map((i) => full[i]!))
        .filter(({ length }) => length > 1)
        .flatMap((group) => group.map((member) => own[member]!));
    }),
  );
  return new Map(
    all.map((one, i) => [one.instrument.id, microphonesOf(one, full[i]!, sharing.has(i))]),
  );
};

const fullOf = ({
  instrument,
  player,
  calibration,
  slots,
}: SlottedInstrument): LoadedInstrument => ({
  ...{ instrument, player, calibration },
  copies: slots.map(({ count }) => ({
    zones: new Uint8Array(instrument.zones.length).fill(1),
    count,
  })),
});

/** What stays, without what only stops others: that has no samples in memory. */
const keptOf = ({
  instrument,
  planned,
  player,
  calibration,
  slots,
}: SlottedInstrument): LoadedInstrument => {
  const { byCopy, loaded, anywhere } = keptZones(instrument, planned);
  return {
    ...{ instrument, player, calibration },
    copies: slots
      .filter(({ isSpare }) => !isSpare)
      .map(({ copy, count }) => ({
        zones: byCopy && copy !== null ? loaded(copy) : anywhere,
        count,
      })),
  };
};

const microphonesOf = (
  one: SlottedInstrument,
  full: LoadedInstrument,
  isShared: boolean,
): readonly OverviewMicrophone[] => {
  const { zones, samples } = one.instrument;
  const names = [
    ...new Set(zones.flatMap(({ microphone }) => (microphone === null ? [] : [microphone]))),
  ];
  if (names.length === 0) return [];
  const kept = keptOf(one);
  const stays = new Set(one.planned.kept.map(({ zone }) => zone));
  /** Per sample, the only microphone that uses it, or null; undefined: nothing does. */
  const usedBy = new Array<string | null | undefined>(samples.length).fill(undefined);
  const several = new Set<string | null>();
  for (const { microphone, samples: used } of zones) {
    for (const sample of used) {
      const other = usedBy[sample];
      if (other === undefined) usedBy[sample] = microphone;
      else if (other !== microphone) several.add(microphone).add(other);
    }
  }
  return names.map((name) => {
    const part: ZoneMask = Uint8Array.from(zones, ({ microphone }) => Number(microphone === name));
    return {
      name,
      zones: part.reduce((sum, is) => sum + is, 0),
      zonesKept: zones.filter(({ id, microphone }) => microphone === name && stays.has(id)).length,
      bytes: { full: partMemory(full, part), kept: partMemory(kept, part) },
      bytesAtMost: isShared || several.has(name),
    };
  });
};
