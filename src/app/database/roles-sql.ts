import pg from 'pg';

/** What an administrator runs once where the user of the given database may not make roles or tables. */
export function rolesSql(databaseUrl: string): string {
  const { username, pathname } = new URL(databaseUrl);
  const user = pg.escapeIdentifier(decodeURIComponent(username));
  const database = pg.escapeIdentifier(decodeURIComponent(pathname.slice(1)));
  return [
    'CREATE ROLE skidkeep_app NOLOGIN;',
    'CREATE ROLE skidkeep_client NOLOGIN;',
    'GRANT skidkeep_client TO skidkeep_app;',
    `GRANT skidkeep_app TO ${user};`,
    `ALTER DATABASE ${database} OWNER TO ${user};`,
  ].join('\n');
}
