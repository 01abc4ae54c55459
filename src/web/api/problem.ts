import { words } from '../words.js';

/** What the service answers when it refuses: problem+json. */
export interface Problem {
  readonly status: number;
  readonly title: string;
  readonly errors: readonly { readonly pointer: string; readonly message: string }[];
}

/** Whatever a call failed with, as one kind of thing. Status 0: no answer came. */
export function problemOf(error: unknown): Problem {
  if (typeof error === 'object' && error !== null && 'status' in error && typeof error.status === 'number') {
    const { status, title, errors } = error as { status: number; title?: unknown; errors?: unknown };
    return { status, title: typeof title === 'string' ? title : words.failed.unknown, errors: Array.isArray(errors) ? (errors as Problem['errors']) : [] };
  }
  return { status: 0, title: words.failed.noAnswer, errors: [] };
}

/** The last name in a pointer such as `#/readings/0/at`. */
export const fieldOf = (pointer: string) => pointer.split('/').at(-1) ?? pointer;
