/** Values kept on the device by key: they outlive the page, the sign-in and a crash, and there is an end to the room for them. */
export interface KeptStore {
  get<T>(key: string): Promise<T | undefined>;
  /** All of them or none */
  put(entries: readonly (readonly [key: string, value: unknown])[]): Promise<void>;
  remove(keys: readonly string[]): Promise<void>;
  keysFrom(prefix: string): Promise<string[]>;
}

/** Everything whose key begins with the prefix, in the order of the keys. */
export async function allFrom<T>(store: KeptStore, prefix: string): Promise<T[]> {
  const keys = await store.keysFrom(prefix);
  const values = await Promise.all(keys.toSorted().map((key) => store.get<T>(key)));
  return values.filter((value) => value !== undefined);
}

export const KEYS = {
  session: 'session',
  sheets: (personId: string) => `sheets ${personId}`,
  drafts: (personId: string) => `draft ${personId} `,
  draft: (personId: string, jobId: string) => `draft ${personId} ${jobId}`,
  parcels: 'parcel ',
  /** Of the report: unique whoever sent it */
  parcel: (reportId: string) => `parcel ${reportId}`,
  photo: (photoId: string) => `photo ${photoId}`,
  answers: (personId: string) => `answer ${personId} `,
  answer: (personId: string, jobId: string) => `answer ${personId} ${jobId}`,
} as const;
