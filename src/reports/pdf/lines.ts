import type { Ink, Paper } from './paper.js';

/**
 * Breaks a text into lines that are no wider than asked. Words stand together as typed; one that is wider than a line is cut.
 * Breaks of the text are kept, an empty text is one empty line.
 */
export function linesOf(paper: Paper, text: string, width: number, ink: Ink): string[] {
  paper.use(ink);
  const { doc } = paper;
  const wide = (piece: string) => doc.widthOfString(piece) > width;
  return printable(text)
    .split('\n')
    .flatMap((paragraph) => {
      const lines: string[] = [];
      let line = '';
      for (const word of paragraph.split(' ').flatMap((each) => (wide(each) ? cut(each, wide) : [each]))) {
        const longer = line === '' ? word : `${line} ${word}`;
        if (line !== '' && wide(longer)) {
          lines.push(line);
          line = word;
        } else line = longer;
      }
      return [...lines, line];
    });
}

/** Characters that steer something and are drawn as nothing are left out. */
function printable(text: string): string {
  return text
    .replaceAll(/\r\n?/g, '\n')
    .replaceAll('\t', ' ')
    .replaceAll(/[\p{Cc}\p{Cs}\p{Co}]/gu, (char) => (char === '\n' ? char : ''));
}

function cut(word: string, wide: (piece: string) => boolean): string[] {
  const pieces: string[] = [];
  let piece = '';
  for (const char of word) {
    if (piece !== '' && wide(piece + char)) {
      pieces.push(piece);
      piece = char;
    } else piece += char;
  }
  return [...pieces, piece];
}
