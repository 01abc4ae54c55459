/** Why a part was removed. Only the first two tell how long such a part lasts; after the others it could have gone on. */
export const REMOVAL_REASONS = ['worn out', 'failed', 'changed early', 'moved elsewhere', 'other'] as const;
export type RemovalReason = (typeof REMOVAL_REASONS)[number];
