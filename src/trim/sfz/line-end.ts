/** How a text ends its lines, by the first of them; LF where it has but one. */
export const lineEndOf = (text: string): string => /\r\n|\r|\n/u.exec(text)?.[0] ?? '\n';
