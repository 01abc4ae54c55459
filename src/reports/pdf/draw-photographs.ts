import { sharedWords } from '../../shared/words.js';
import type { Photograph } from '../core/document.js';
import { INKS } from './inks.js';
import { linesOf } from './lines.js';
import { LEADING, type Paper } from './paper.js';
import { mayBeDrawn } from './whole-png.js';

const GAP = 12;
const HEIGHT = 170;
export const PHOTOGRAPHS_ROOM = HEIGHT + 24;
const CAPTION = { size: 8.5, color: INKS.inkSoft };

/** Two photographs side by side, each with its caption below. One that cannot be read is named all the same. */
export function drawPhotographs(paper: Paper, photographs: readonly Photograph[]): void {
  const width = (paper.width - GAP) / 2;
  for (let first = 0; first < photographs.length; first += 2) {
    const pair = photographs.slice(first, first + 2).map((photograph) => ({
      photograph,
      image: openImage(paper, photograph.content),
      caption: linesOf(paper, `${photograph.name}${photograph.caption === '' ? '' : `: ${photograph.caption}`}`, width, CAPTION),
    }));
    const captions = Math.max(...pair.map(({ caption }) => caption.length)) * CAPTION.size * LEADING;
    const tall = pair.some(({ image }) => image !== undefined) ? HEIGHT : 16;
    paper.need(tall + captions + 8);
    const { y } = paper;
    for (const [at, { photograph, image, caption }] of pair.entries()) {
      const x = paper.left + at * (width + GAP);
      if (image === undefined) paper.tag(paper.root, 'P', () => paper.line('This photograph could not be read.', x, y, CAPTION));
      else {
        const draw = () => paper.doc.image(image, x, y, { fit: [width, tall] });
        paper.tag(paper.root, 'Figure', draw, { alt: photograph.caption || photograph.name || sharedWords.none, bbox: [x, y, x + width, y + tall] });
      }
      paper.tag(paper.root, 'P', () => paper.lines(caption, x, y + tall + 3, CAPTION));
    }
    paper.down(tall + captions + 12);
  }
}

interface OpensImages {
  openImage(content: Buffer): PDFKit.Mixins.ImageSrc;
}

function openImage({ doc }: Paper, content: Uint8Array): PDFKit.Mixins.ImageSrc | undefined {
  const bytes = Buffer.from(content);
  if (!mayBeDrawn(bytes)) return undefined;
  try {
    return (doc as unknown as OpensImages).openImage(bytes); // the types leave it out
  } catch {
    return undefined; // a picture that another program could not read either
  }
}
