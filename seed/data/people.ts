import type { ScenarioPerson } from '../types.js';

const staff = (key: string, name: string, role: 'manager' | 'storekeeper' | 'technician'): ScenarioPerson => ({
  key,
  name,
  email: `${key}@example.org`,
  role,
  clientKey: null,
  siteKey: null,
  mayEnterReadings: true,
});

const ofClient = (key: string, name: string, clientKey: string, siteKey: string | null = null): ScenarioPerson => ({
  key,
  name,
  email: `${key}@example.org`,
  role: 'client',
  clientKey,
  siteKey,
  mayEnterReadings: siteKey !== null,
});

/** Invented people. The operator of a site enters its readings. */
export const PEOPLE: readonly ScenarioPerson[] = [
  staff('ines.halvorsen', 'Ines Halvorsen', 'manager'),
  staff('tomas.reedway', 'Tomas Reedway', 'storekeeper'),
  staff('jonah.pikkala', 'Jonah Pikkala', 'technician'),
  staff('marit.dunnoway', 'Marit Dunnoway', 'technician'),
  staff('signe.aldermoor', 'Signe Aldermoor', 'technician'),
  ofClient('orla.fennimore', 'Orla Fennimore', 'fernhollow'),
  ofClient('bo.tamarind', 'Bo Tamarind', 'brennholm', 'tamarrow-creamery'),
  ofClient('pilar.vasconde', 'Pilar Vasconde', 'merla'),
];

export const MANAGER = 'ines.halvorsen';
export const TECHNICIANS = ['jonah.pikkala', 'marit.dunnoway'] as const;
export const SITE_OPERATOR = 'bo.tamarind';
