export { DataFolderHeldError, EmbeddedDatabaseError } from './embedded-database-error.js';
export type { EmbeddedDatabaseCode, FolderHolder } from './embedded-database-error.js';
export { startEmbeddedPostgres } from './start-embedded-postgres.js';
export type {
  EmbeddedConnection,
  EmbeddedPostgres,
  EmbeddedPostgresOptions,
} from './start-embedded-postgres.js';
export type { ServerEvent } from './supervisor.js';
