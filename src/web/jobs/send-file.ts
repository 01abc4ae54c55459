import { newUuid } from '../new-uuid.js';
import { reducePhoto } from '../work/reduce-photo.js';

/** Sends a file to a job. A picture is made smaller first; anything else goes as it is, and the service says what it takes. */
export async function sendFile(jobId: string, file: File): Promise<{ error?: unknown; response: Response }> {
  const reduced = await reducePhoto(file);
  const about = new URLSearchParams({ ofKind: 'job', ofId: jobId, name: file.name });
  const response = await fetch(`/api/attachments/${newUuid()}?${about}`, {
    method: 'PUT',
    credentials: 'same-origin',
    headers: { 'content-type': reduced === undefined ? file.type || 'application/octet-stream' : 'image/jpeg' },
    body: reduced ?? file,
  });
  return response.ok ? { response } : { error: await response.json().catch(() => ({ status: response.status })), response };
}
