import { createHash, randomBytes } from 'node:crypto';

/** A secret of 32 random bytes that is told once; the database keeps its hash only. */
export function newToken(): { token: string; tokenHash: string } {
  const token = randomBytes(32).toString('base64url');
  return { token, tokenHash: hashOfToken(token) };
}

/** SHA-256 is enough here: a random token cannot be guessed the way a password can. */
export function hashOfToken(token: string): string {
  return createHash('sha256').update(token).digest('hex');
}
