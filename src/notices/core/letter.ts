import { noticeWords } from './words.js';

export interface Section {
  readonly heading: string;
  readonly lines: readonly string[];
  /** How many there are, where not all are listed */
  readonly of?: number;
}

export interface Letter {
  readonly subject: string;
  readonly text: string;
}

/**
 * One line of words: breaks and runs of spaces within names and notes become one space, so that nothing of a record can pass for a line of the
 * letter or of its head.
 *
 * @example oneLine('Pump\r\nBcc: x') // => "Pump Bcc: x"
 */
export function oneLine(text: string): string {
  return text.replace(/[\s\p{Cc}]+/gu, ' ').trim();
}

/** A letter of plain text: a first line, sections as lists, last lines. */
export function letter(subject: string, first: string, sections: readonly Section[], last: readonly string[]): Letter {
  const blocks = sections.map(({ heading, lines, of }) => {
    const more = of !== undefined && of > lines.length ? [`- ${noticeWords.more(of - lines.length)}`] : [];
    return [heading, ...lines.map((line) => `- ${oneLine(line)}`), ...more].join('\n');
  });
  return { subject: oneLine(subject), text: `${[first, ...blocks, last.join('\n')].join('\n\n')}\n` };
}
