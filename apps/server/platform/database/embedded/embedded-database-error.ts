const REMEDY = 'Set DATABASE_URL to use a Postgres server (15 or later) of your own instead.';

export type EmbeddedDatabaseCode =
  | 'platform-unsupported'
  | 'binaries-unusable'
  | 'data-folder-held'
  | 'data-folder-unusable'
  | 'server-start-failed';

/** Why the built-in database cannot be used. The message is written for the person who started the program. */
export class EmbeddedDatabaseError extends Error {
  override readonly name: string = 'EmbeddedDatabaseError';

  constructor(
    readonly code: EmbeddedDatabaseCode,
    detail: string,
    options?: ErrorOptions,
  ) {
    super(`${detail} ${REMEDY}`, options);
  }
}

/** Who holds a data folder. The host tells apart two containers that share a volume and count pids separately. */
export interface FolderHolder {
  readonly pid: number;
  readonly host: string;
}

/** Another process, perhaps on another host name, runs the database of this folder. */
export class DataFolderHeldError extends EmbeddedDatabaseError {
  override readonly name = 'DataFolderHeldError';

  constructor(
    readonly dataDir: string,
    readonly holder: FolderHolder | undefined,
  ) {
    const who = holder === undefined ? 'another process' : `process ${holder.pid} on ${holder.host}`;
    super(
      'data-folder-held',
      `The data folder ${dataDir} is held by ${who}, and one folder serves one process. ` +
        'Stop that process, or give this one another folder. Several processes need one shared server.',
    );
  }
}
