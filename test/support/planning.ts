import type { Api } from './api.js';

const WEEK = {
  latitude: 50,
  longitude: 8,
  workDays: [1, 2, 3, 4, 5],
  shiftFrom: '08:00',
  regularUntil: '16:30',
  shiftUntil: '17:00',
  mostNights: 0,
  skills: [],
  daysOff: [],
};

/** Enters what planning knows of somebody: a usual week, unless said otherwise. */
export async function knowPerson(manager: Api, id: string, about: object): Promise<void> {
  const people = (await manager.get('/api/planning/people').expect(200)).body as { personId: string; version: number }[];
  const version = people.find(({ personId }) => personId === id)?.version ?? 0;
  await manager
    .put(`/api/planning/people/${id}`, { ...WEEK, ...about })
    .set('if-match', `"${version}"`)
    .expect(200);
}
