import { useQuery } from '@tanstack/react-query';
import { api } from '../api/client.js';

/** How the due list would change if the skids followed the version; null: no rule set. Undefined: not chosen yet. */
export function useFollowPreview(versionId: string | null | undefined, skidIds: readonly string[]) {
  return useQuery({
    queryKey: ['follow preview', versionId, skidIds],
    enabled: versionId !== undefined,
    gcTime: 0,
    queryFn: async () => {
      const body = { skidIds: [...skidIds] };
      const { data, error } =
        versionId == null
          ? await api.POST('/api/rule-sets/leave/preview', { body })
          : await api.POST('/api/rule-sets/versions/{versionId}/preview', { params: { path: { versionId } }, body });
      if (data === undefined) throw error;
      return data;
    },
  });
}

/** Lets the skids follow the version from now on; null: no rule set. */
export function follow(versionId: string | null, skidIds: readonly string[]) {
  const body = { skidIds: [...skidIds] };
  return versionId === null
    ? api.POST('/api/rule-sets/leave', { body })
    : api.POST('/api/rule-sets/versions/{versionId}/skids', { params: { path: { versionId } }, body });
}
