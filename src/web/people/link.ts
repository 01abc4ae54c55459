export interface Link {
  readonly name: string;
  readonly path: string;
  readonly expiresAt: string;
}
