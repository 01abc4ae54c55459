interface Size {
  readonly width: number;
  readonly height: number;
}

/** The same shape, whose longer side is no longer than `longest`; never larger than it is. */
export function sizeWithin({ width, height }: Size, longest: number): Size {
  const share = Math.min(1, longest / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * share)), height: Math.max(1, Math.round(height * share)) };
}
