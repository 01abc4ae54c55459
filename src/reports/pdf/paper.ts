import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import PDFDocument from 'pdfkit';
import { INKS } from './inks.js';

const { resolve } = createRequire(import.meta.url);
/** Whole fonts: the subsets that the pages use lack characters such as ≥ and ₂, and a PDF has no other font to fall back on. */
const font = (file: string): Buffer => readFileSync(resolve(`@expo-google-fonts/source-sans-3/${file}`));
const FONTS = { text: font('400Regular/SourceSans3_400Regular.ttf'), strong: font('600SemiBold/SourceSans3_600SemiBold.ttf') };

const MILLIMETRE = 72 / 25.4;
const MARGIN = { x: 12 * MILLIMETRE, y: 14 * MILLIMETRE };
/** Head and foot of the page stand in these strips, inside the margins. */
const HEAD = 22;
const FOOT = 20;

/** From one line of text to the next, in sizes of its letters. */
export const LEADING = 1.32;

export type Element = PDFKit.PDFStructureElement;

/** What an element says of itself: of a figure what it shows and where it is, of the head of a table what it heads. */
export interface ElementOptions {
  readonly title?: string;
  readonly alt?: string;
  readonly bbox?: [number, number, number, number];
  readonly scope?: 'Row' | 'Column';
}

export interface Ink {
  readonly strong?: boolean;
  readonly size: number;
  readonly color?: string;
}

/** An A4 document with tags, filled from top to bottom. All that is drawn is either part of the structure or an artifact. */
export class Paper {
  readonly doc: PDFKit.PDFDocument;
  readonly root: Element;
  readonly left = MARGIN.x;
  readonly width: number;
  private readonly pages: Promise<Buffer>;
  private at: number;

  constructor(about: { title: string; madeAtMs: number }) {
    // The types know neither this subset nor fonts that were read already.
    const options = {
      size: 'A4',
      margin: 0,
      pdfVersion: '1.7',
      subset: 'PDF/UA',
      tagged: true,
      lang: 'en-GB',
      displayTitle: true,
      bufferPages: true,
      info: { Title: about.title, Creator: 'Skidkeep', Producer: 'Skidkeep', CreationDate: new Date(about.madeAtMs) },
      font: null, // set by name below: a font that is given here as well would be read anew at every change
    };
    this.doc = new PDFDocument(options as unknown as PDFKit.PDFDocumentOptions);
    this.doc.registerFont('text', FONTS.text).registerFont('strong', FONTS.strong);
    this.width = this.doc.page.width - 2 * MARGIN.x;
    this.root = this.doc.struct('Document');
    this.doc.addStructure(this.root);
    this.at = this.top;
    this.pages = collect(this.doc);
  }

  get top(): number {
    return MARGIN.y + HEAD;
  }

  get floor(): number {
    return this.doc.page.height - MARGIN.y - FOOT;
  }

  /** Where the next thing is drawn. */
  get y(): number {
    return this.at;
  }

  get isAtTop(): boolean {
    return this.at === this.top;
  }

  down(points: number): void {
    this.at += points;
  }

  /** Room between two things; none at the top of a page. */
  gap(points: number): void {
    if (!this.isAtTop) this.at += points;
  }

  newPage(): void {
    this.doc.addPage();
    this.at = this.top;
  }

  /** Begins a new page unless so much fits on this one. */
  need(points: number): void {
    if (!this.isAtTop && this.at + points > this.floor) this.newPage();
  }

  /** An element of the structure, which is ended by whoever asked for it. */
  element(parent: Element, type: string, options: ElementOptions = {}): Element {
    const made = this.doc.struct(type, options as PDFKit.Mixins.StructureElementOptions);
    parent.add(made);
    return made;
  }

  /** Draws something that is an element of the structure. */
  tag(parent: Element, type: string, draw: () => void, options: ElementOptions = {}): void {
    const made = this.element(parent, type, options);
    made.add(draw);
    made.end();
  }

  /** Draws what is no part of the matter: rules, grounds, page numbers. */
  artifact(draw: () => void, type?: 'Pagination'): void {
    this.doc.markContent('Artifact', type === undefined ? {} : { type });
    draw();
    this.doc.endMarkedContent();
  }

  use({ strong = false, size, color = INKS.ink }: Ink): void {
    this.doc
      .font(strong ? 'strong' : 'text')
      .fontSize(size)
      .fillColor(color);
  }

  /** One line of text with the top of its letters' box at `y`. */
  line(text: string, x: number, y: number, ink: Ink, align: 'left' | 'right' | 'center' = 'left'): void {
    this.use(ink);
    const shift = align === 'left' ? 0 : this.doc.widthOfString(text) / (align === 'right' ? 1 : 2);
    this.doc.text(text, x - shift, y, { lineBreak: false });
  }

  /** Lines one below the other. */
  lines(texts: readonly string[], x: number, y: number, ink: Ink): void {
    for (const [at, text] of texts.entries()) this.line(text, x, y + at * ink.size * LEADING, ink);
  }

  measure(text: string, ink: Ink): number {
    this.use(ink);
    return this.doc.widthOfString(text);
  }

  /** Head and foot of every page, once it is known how many there are. */
  async finish(running: string, made: string): Promise<Buffer> {
    this.root.end();
    const { count } = this.doc.bufferedPageRange();
    const ink = { size: 8, color: INKS.inkSoft };
    for (let page = 0; page < count; page += 1) {
      this.doc.switchToPage(page);
      const foot = this.doc.page.height - MARGIN.y - ink.size;
      this.artifact(() => {
        if (page > 0) this.line(running, this.left, MARGIN.y, ink);
        this.line(made, this.left, foot, ink);
        this.line(`Page ${page + 1} of ${count}`, this.left + this.width, foot, ink, 'right');
      }, 'Pagination');
    }
    this.doc.end();
    return this.pages;
  }
}

function collect(doc: PDFKit.PDFDocument): Promise<Buffer> {
  const chunks: Buffer[] = [];
  return new Promise((resolve, reject) => {
    doc.on('data', (chunk: Buffer) => chunks.push(chunk));
    doc.on('end', () => resolve(Buffer.concat(chunks)));
    doc.on('error', reject);
  });
}
