import { sizeWithin } from './size-within.js';

const LONGEST_PX = 1600;
const QUALITY = 0.8;

/** A photograph as small as it may be to still show a gauge or a serial number; undefined when the file is no picture. */
export async function reducePhoto(file: Blob): Promise<ArrayBuffer | undefined> {
  // The camera notes which way is up; the picture must be turned before it is drawn.
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => undefined);
  if (picture === undefined) return undefined;
  const canvas = document.createElement('canvas');
  Object.assign(canvas, sizeWithin(picture, LONGEST_PX));
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  const reduced = await blobOf(canvas, 'image/jpeg', QUALITY);
  return reduced?.arrayBuffer();
}

/** What is drawn on a canvas, as a file. */
export const blobOf = (canvas: HTMLCanvasElement, type: string, quality?: number): Promise<Blob | null> =>
  new Promise((resolve) => canvas.toBlob(resolve, type, quality));
