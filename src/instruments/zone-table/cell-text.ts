/** The longest piece of a cell that a message repeats, in characters. */
const longest = 60;

/** A cell as a message shows it: without space around it, and cut when it is long. */
export const shown = (text: string): string => {
  const characters = [...text.slice(0, 4 * longest).trim()];
  if (characters.length <= longest) return characters.join('');
  return `${characters.slice(0, longest - 1).join('')}…`;
};

/** The parts of a list that `|` divides, without space around them. */
export const listed = (text: string): readonly string[] =>
  text.split('|').map((part) => part.trim());
