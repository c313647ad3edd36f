import type { CopyToPrime, LaneGroup } from './lanes.ts';

/** Puts copies together that hear a part in common, directly or by way of others; in their order. */
export const groupsOf = (copies: readonly CopyToPrime[]): readonly LaneGroup[] => {
  let groups: { readonly parts: ReadonlySet<string>; readonly copies: CopyToPrime[] }[] = [];
  for (const one of copies) {
    const parts = new Set(partsOf(one));
    const touched = groups.filter((group) => [...parts].some((part) => group.parts.has(part)));
    const joined = {
      parts: new Set([...touched.flatMap((group) => [...group.parts]), ...parts]),
      copies: [...touched.flatMap((group) => group.copies), one],
    };
    const at = groups.findIndex((group) => touched.includes(group));
    groups = groups.filter((group) => !touched.includes(group));
    groups.splice(at < 0 ? groups.length : at, 0, joined);
  }
  return groups.map((group) => ({ machine: group.copies[0]!.machine, copies: group.copies }));
};

const partsOf = ({ copy }: CopyToPrime): readonly string[] =>
  copy.sources.flatMap(({ track, port, channels }) =>
    Array.from({ length: 16 }, (_, channel) => channel)
      .filter((channel) => (channels & (1 << channel)) !== 0)
      .map((channel) => `${String(track)} ${String(port)} ${String(channel)}`),
  );
