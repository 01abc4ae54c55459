import { faultIn, viewOf } from '../../../app/index.js';
import { accessInWords, type Ferry, stayBetween } from '../../core/plan-facts/access-of-site.js';
import type { SiteToRead } from '../planning-data.repository.js';
import { type ContactDto, ContactView, type FerryDto, FerryView, type SiteAccessDto, WayInView } from './access.dto.js';

/** What is stored of how people get in. */
export interface SiteAccess {
  readonly noticeDays: number;
  readonly inductions: string[];
  readonly ferry: Ferry | null;
  readonly openMonths: number[];
  readonly escort: boolean;
  readonly accessNote: string;
  readonly contacts: readonly ContactView[];
}

export function accessOf(row: SiteToRead['planning']): SiteAccess {
  return {
    noticeDays: row?.noticeDays ?? 0,
    inductions: row?.inductions ?? [],
    ferry: (row?.ferry ?? null) as Ferry | null,
    openMonths: row?.openMonths ?? [],
    escort: row?.escort ?? false,
    accessNote: row?.accessNote ?? '',
    contacts: ((row?.contacts ?? []) as unknown as ContactView[]).map((contact) => viewOf(ContactView, contact)),
  };
}

/** As it is stored, once nothing speaks against it. */
export function accessToStore(input: SiteAccessDto) {
  const { noticeDays = 0, inductions = [], ferry = null, openMonths = [], escort = false, accessNote = '', contacts = [] } = input;
  for (const [at, contact] of contacts.entries()) checkContact(contact, at);
  const all = openMonths.length === 12;
  return {
    noticeDays,
    inductions,
    ferry: ferry === null ? null : ferryToStore(ferry),
    openMonths: all ? [] : openMonths.toSorted((one, two) => one - two),
    escort,
    accessNote: accessNote.trim(),
    contacts: contacts.map(({ name, role = '', phone = '', email = null }) => ({ name, role: role.trim(), phone: phone.trim(), email })),
  };
}

function checkContact({ phone = '', email = null }: ContactDto, at: number): void {
  if (phone.trim() === '' && email === null) throw faultIn(`contacts/${at}/phone`, 'is missing: give a telephone number or an e-mail address');
}

function ferryToStore({ out, back, minutes }: FerryDto): { out: string[]; back: string[]; minutes: number } {
  const ferry = { out: out.toSorted(), back: back.toSorted(), minutes };
  const { from, until } = stayBetween(ferry);
  if (until <= from) throw faultIn('ferry/back', `must hold a departure later than the first arrival, ${minutes} minutes after ${ferry.out[0]}`);
  return ferry;
}

export const ferryView = (ferry: Ferry | null): FerryView | null =>
  ferry === null ? null : viewOf(FerryView, { out: [...ferry.out], back: [...ferry.back], minutes: ferry.minutes });

export function wayInView(row: SiteToRead['planning']): WayInView {
  const access = accessOf(row);
  return viewOf(WayInView, { access: accessInWords({ ...access, mayWorkAlone: row?.mayWorkAlone ?? true }), contacts: [...access.contacts] });
}
