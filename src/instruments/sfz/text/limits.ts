/**
 * What an instrument may come to. The largest that are known stay far below; a file that goes beyond
 * one of these would only fill the memory.
 */
export const limits = {
  /** Bytes of the files together, and characters as they are read, files included twice counted twice. */
  text: 64 * 2 ** 20,
  /** Characters that variables put in, all passes counted. */
  expansion: 64 * 2 ** 20,
  /** Includes that are followed, files included twice counted twice. */
  includes: 20_000,
  /** Files that are open inside one another. */
  depth: 32,
  opcodes: 2_000_000,
  /** Headers of any kind. */
  headers: 500_000,
  /** Regions, and opcodes of regions with what each inherits. */
  regions: 200_000,
  inherited: 20_000_000,
  variables: 10_000,
  /** Characters of a variable's name. */
  variableName: 128,
  /** Times that a value is gone through until no variable is left in it. */
  passes: 64,
  /** Characters of a value, before and after variables are put in; data of an embedded sample apart. */
  value: 65_536,
  /** Characters of the path of an include. */
  path: 4096,
} as const;
