import { comment, lineWidth } from './comment.ts';
import type { DraftRule } from './draft-rule.ts';
import { quoted, quotedList } from './yaml-text.ts';

/** The keys of a rule and their values on one line. */
const fieldsOf = (rule: DraftRule): readonly (readonly [key: string, value: string])[] => {
  const { by, patterns, group, articulation } = rule;
  const { port, channel } = group.tracks[0];
  return [
    [by, quotedList(patterns)],
    ...(port === null ? [] : [['port', String(port)] as const]),
    ...(channel === null ? [] : [['channel', String(channel)] as const]),
    group.instrument === null ? ['ignore', 'true'] : ['instrument', group.instrument],
    ...(articulation === null ? [] : [['articulation', quoted(articulation)] as const]),
  ];
};

/** A rule on one line: `{ track: "Hn 1", instrument: hn }`. */
export const ruleInFlow = (rule: DraftRule): string =>
  `{ ${fieldsOf(rule)
    .map(([key, value]) => `${key}: ${value}`)
    .join(', ')} }`;

/** A rule as lines of a block, without what it is indented by; long lists of names below each other. */
const ruleInBlock = (rule: DraftRule): readonly string[] => {
  const lines = fieldsOf(rule).flatMap(([key, value]) =>
    key === rule.by && rule.patterns.length > 1
      ? [`${key}:`, ...rule.patterns.map((pattern) => `  - ${quoted(pattern)}`)]
      : [`${key}: ${value}`],
  );
  return lines.map((line, i) => (i === 0 ? `- ${line}` : `  ${line}`));
};

/**
 * A rule as an item of a block sequence, with its comments, on one line if it fits.
 *
 * @param indent blanks before the dash
 */
export const ruleLines = (
  rule: DraftRule,
  indent: number,
  comments: readonly string[] = rule.comments,
): readonly string[] => {
  const margin = ' '.repeat(indent);
  const oneLine = `- ${ruleInFlow(rule)}`;
  const fits = indent + oneLine.length <= lineWidth;
  return [
    ...comments.flatMap((text) => comment(text, indent)),
    ...(fits ? [oneLine] : ruleInBlock(rule)).map((line) => `${margin}${line}`),
  ];
};
