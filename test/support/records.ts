import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import type { Api } from './api.js';

/** A record as the API answers it. */
export interface Made {
  readonly id: string;
  readonly version: number;
  readonly [field: string]: unknown;
}

export const make = async (by: Api, path: string, body: object): Promise<Made> => (await by.post(path, body).expect(201)).body;

export const endRecord = (by: Api, path: string, { id, version }: Made, on = '2026-11-25') =>
  by.call('post', `${path}/${id}/end`).set('if-match', `"${version}"`).send({ on });

/** The fields that a refusal names. */
export const pointersOf = (body: { errors?: { pointer: string }[] }): string[] => body.errors?.map((fault) => fault.pointer) ?? [];

/** Skids that wait for their conclusions to be made again, which are then forgotten. */
export async function takeToBeJudged(app: NestFastifyApplication): Promise<string[]> {
  const { pool } = app.get(Database);
  const { rows } = await pool.query<{ id: string }>(`DELETE FROM pgboss.job WHERE name = 'recompute-skid' RETURNING data->>'skidId' AS id`);
  return rows.map((row) => row.id);
}
