/** What is kept, by the media type that the first bytes say; only images are shown in the page, the rest is downloaded. */
const KEPT = {
  'image/jpeg': { extension: 'jpg', inPage: true },
  'image/png': { extension: 'png', inPage: true },
  'image/webp': { extension: 'webp', inPage: true },
  'application/pdf': { extension: 'pdf', inPage: false },
} as const;

export type KeptType = keyof typeof KEPT;

export type Judgement = { readonly kind: 'kept'; readonly mediaType: KeptType } | { readonly kind: 'refused'; readonly why: string };

/**
 * Whether a file is kept, by what its first bytes say it is; what its sender or its name say does not count.
 *
 * @param sniffed media type that the first bytes say; undefined: none that is known
 * @example judgeFile('image/png') // => {"kind":"kept","mediaType":"image/png"}
 * @example judgeFile('video/mp4') // => {"kind":"refused","why":"by its first bytes it is video/mp4; send a photograph as JPEG, PNG or WebP, or a document as PDF"}
 */
export function judgeFile(sniffed: string | undefined): Judgement {
  if (isKept(sniffed)) return { kind: 'kept', mediaType: sniffed };
  if (sniffed === 'image/heic' || sniffed === 'image/heif') {
    return {
      kind: 'refused',
      why: `it is ${sniffed}, which most browsers cannot show; send it as JPEG, which the page makes of it on a device that can read it`,
    };
  }
  const is = sniffed === undefined ? 'by its first bytes it is neither an image nor a PDF' : `by its first bytes it is ${sniffed}`;
  return { kind: 'refused', why: `${is}; send a photograph as JPEG, PNG or WebP, or a document as PDF` };
}

const isKept = (type: string | undefined): type is KeptType => type !== undefined && Object.hasOwn(KEPT, type);

/**
 * The Content-Disposition of a kept file (RFC 6266). The ending of its name is that of its type, whatever the sender called it, so that a
 * photograph saved on a disk never opens as a page or a program; characters that a file name cannot have become a line.
 *
 * @example dispositionOf('image/jpeg', 'Pump 2.html') // => "inline; filename=\"Pump 2.jpg\"; filename*=UTF-8''Pump%202.jpg"
 */
export function dispositionOf(mediaType: string, name: string): string {
  const { extension, inPage } = isKept(mediaType) ? KEPT[mediaType] : { extension: 'bin', inPage: false };
  const stem = name
    .replace(/\.[A-Za-z0-9]{1,8}$/, '')
    .replace(/[\p{Cc}\p{Cf}\p{Cs}"*/:<>?\\|%]/gu, '_')
    .trim();
  const file = `${stem === '' ? 'file' : stem}.${extension}`;
  const ascii = file.replace(/[^\x20-\x7e]/g, '_');
  const encoded = encodeURIComponent(file).replace(/['()*]/g, (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`);
  return `${inPage ? 'inline' : 'attachment'}; filename="${ascii}"; filename*=UTF-8''${encoded}`;
}
