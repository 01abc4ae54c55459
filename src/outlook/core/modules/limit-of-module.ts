import type { MetWithin } from '../days-to-limit.js';

export const MODULE_LIMITS = ['age', 'repairs', 'oxidant'] as const;
export type ModuleLimit = (typeof MODULE_LIMITS)[number];

/** What one limit says of a module: when it is met, that it is met already, or why nothing can be said. */
export type LimitSaid = { readonly limit: ModuleLimit; readonly text: string } & (
  | {
      readonly kind: 'known';
      readonly met: MetWithin /** Rests on common practice and not on what the maker states: told, and not counted */;
      readonly usualOnly: boolean;
    }
  | { readonly kind: 'met' }
  | { readonly kind: 'too-little-data' }
);
