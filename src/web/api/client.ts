import createClient from 'openapi-fetch';
import createHooks from 'openapi-react-query';
import type { components, paths } from './schema.js';

export const api = createClient<paths>({ baseUrl: '/', credentials: 'same-origin', fetch: (request) => globalThis.fetch(request) });
/** The same calls as hooks of the query library. */
export const query = createHooks(api);
export type Schemas = components['schemas'];
