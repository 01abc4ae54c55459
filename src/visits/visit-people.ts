import { type FieldProblem, InvalidRequest, type Reader } from '../app/index.js';
import { peopleOf } from './planning.repository.js';

/** Those who are to go, when each of them is of the staff and has not ended. */
export async function peopleToGo(tx: Reader, ids: readonly string[]): Promise<{ id: string; name: string }[]> {
  const known = new Map((await peopleOf(tx, ids)).map((person) => [person.id, person]));
  const problems = ids.flatMap((id, at): FieldProblem[] => {
    const person = known.get(id);
    const pointer = `#/personIds/${at}`;
    if (person === undefined) return [{ pointer, message: `there is no person ${id}` }];
    if (person.role === 'client') return [{ pointer, message: `${person.name} is a client’s person: send somebody of the staff` }];
    return person.endedAt === null ? [] : [{ pointer, message: `${person.name} works here no longer: send somebody else` }];
  });
  if (problems.length > 0) throw new InvalidRequest('The visit has people who cannot go', problems);
  return [...known.values()].map(({ id, name }) => ({ id, name }));
}
