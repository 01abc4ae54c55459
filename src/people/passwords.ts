import { hash, verify } from '@node-rs/argon2';

/** argon2id with the library's costs: 19 MiB of memory, two passes. */
export const hashPassword = (password: string): Promise<string> => hash(password);

let nobodysHash: Promise<string> | undefined;

/** Takes the same time whether there is such a person or not, so that the time tells nobody who has an account. */
export async function passwordFits(passwordHash: string | null, password: string): Promise<boolean> {
  nobodysHash ??= hash('nobody has this password');
  const fits = await verify(passwordHash ?? (await nobodysHash), password);
  return fits && passwordHash !== null;
}
