import { Link } from 'wouter';

/** Above the name of a page that belongs to one skid: the way back to it. */
export function SkidPlace({ skidId, skidName, siteName }: { skidId: string; skidName: string; siteName: string }) {
  return (
    <>
      <Link href={`/skids/${skidId}`}>{skidName}</Link>, {siteName}
    </>
  );
}
