import { createHash, randomUUID } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { mkdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type {} from '@fastify/multipart';
import type { FastifyRequest } from 'fastify';
import { problem, ProblemError } from '../http/problem-error.js';

export interface ReceivedFile {
  readonly path: string;
  readonly sha256: string;
  readonly bytes: number;
  /** Removes the file; call it whatever happens. */
  discard(): Promise<void>;
}

/**
 * Streams the file of one multipart field into a folder, hashing as it goes; it is never in memory as a whole. The size
 * limit is the one that the multipart plug-in was registered with.
 */
export async function receiveFile(
  request: FastifyRequest,
  field: string,
  folder: string,
): Promise<ReceivedFile> {
  if (!request.isMultipart())
    throw problem(
      'unsupported-media-type',
      `Send multipart/form-data with the file in the field "${field}".`,
    );
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const path = join(folder, randomUUID());
  const discard = (): Promise<void> => rm(path, { force: true });
  try {
    const written = await write(request, field, path);
    if (written) return { path, ...written, discard };
    throw problem('request-invalid', 'There is no file in the request.', {
      fields: [{ pointer: `/${field}`, detail: `Send one file in the field "${field}".` }],
    });
  } catch (error) {
    await discard();
    throw wording(request, error);
  }
}

async function write(
  request: FastifyRequest,
  field: string,
  path: string,
): Promise<{ sha256: string; bytes: number } | undefined> {
  let written: { sha256: string; bytes: number } | undefined;
  for await (const part of request.parts()) {
    if (part.type !== 'file') continue;
    if (part.fieldname !== field) {
      part.file.resume();
      continue;
    }
    const hash = createHash('sha256');
    let bytes = 0;
    const measure = new Transform({
      transform(chunk: Buffer, _encoding, done) {
        hash.update(chunk);
        bytes += chunk.length;
        done(null, chunk);
      },
    });
    await pipeline(part.file, measure, createWriteStream(path, { mode: 0o600 }));
    if (part.file.truncated) throw new request.server.multipartErrors.RequestFileTooLargeError();
    written = { sha256: hash.digest('hex'), bytes };
  }
  return written;
}

/** What the parser throws, as a problem; anything else (a full disk) stays what it is. */
function wording(request: FastifyRequest, error: unknown): unknown {
  if (error instanceof ProblemError) return error;
  const { RequestFileTooLargeError, FilesLimitError, FieldsLimitError, PartsLimitError } =
    request.server.multipartErrors;
  if (error instanceof RequestFileTooLargeError)
    return problem('too-large', 'The photo is larger than 25 MiB. Send a smaller one.');
  if (
    error instanceof FilesLimitError ||
    error instanceof FieldsLimitError ||
    error instanceof PartsLimitError
  )
    return problem('request-invalid', 'Send one photo at a time, and nothing else with it.', {
      fields: [{ pointer: '', detail: 'The request has more parts than one photo.' }],
    });
  if ((error as NodeJS.ErrnoException).syscall !== undefined) return error;
  return problem('malformed-request', 'The upload was cut off or is not well-formed. Send it again.');
}
