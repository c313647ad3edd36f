import { parsers } from 'prettier/plugins/markdown';

/** A node of the syntax tree (mdast) of a Markdown text. */
export interface Node {
  readonly type: string;
  readonly value?: string;
  readonly depth?: number;
  readonly align?: readonly (string | null)[];
  readonly children?: readonly Node[];
}

/** Reads Markdown with the parser that the formatter of this project brings, which is not ours. */
export const parse = async (text: string): Promise<Node> =>
  (await parsers.markdown.parse(text, {} as never)) as Node;

/** The node and all below it. */
export const everything = (node: Node): readonly Node[] => [
  node,
  ...(node.children ?? []).flatMap(everything),
];

/** All of one type. */
export const all = (node: Node, type: string): readonly Node[] =>
  everything(node).filter((one) => one.type === type);

/** What a reader sees of it. */
export const shown = (node: Node): string =>
  node.value ?? (node.children ?? []).map(shown).join('');
