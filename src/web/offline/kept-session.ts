import type { Schemas } from '../api/client.js';
import { deviceStore } from './device-store.js';
import { KEYS } from './kept-store.js';

type Session = Schemas['SessionView'];

/** Without signal the device itself must know whose sheets it shows. It keeps no password, and the service asks again for everything that is sent. */
export const keptSession = async (): Promise<Session | null> => (await deviceStore.get<Session>(KEYS.session).catch(() => undefined)) ?? null;

export async function keepSession(session: Session): Promise<void> {
  await deviceStore.put([[KEYS.session, session]]).catch(() => undefined); // storage may be switched off: then there are no pages without signal
}

export async function forgetSession(): Promise<void> {
  await deviceStore.remove([KEYS.session]).catch(() => undefined);
}

/** On signing out: the sheets of the person go; what they began, and what is not yet sent, stays for them. */
export async function forgetPerson(personId: string): Promise<void> {
  await deviceStore.remove([KEYS.session, KEYS.sheets(personId)]).catch(() => undefined);
}
