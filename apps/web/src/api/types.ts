import type { paths } from './schema.js';

export type Path = keyof paths;
export type Method = 'get' | 'post' | 'put' | 'patch' | 'delete';
export type MethodOf<P extends Path> = Method & keyof paths[P];

type Operation<P extends Path, M> = M extends keyof paths[P] ? NonNullable<paths[P][M]> : never;
type JsonOf<R> = R extends { content: { 'application/json': infer J } } ? J : undefined;
type Answers<P extends Path, M> = Operation<P, M> extends { responses: infer R } ? R : never;

/** What a call answers with when it works: the JSON of its 200 or 201, nothing for 204. */
export type Reply<P extends Path, M> = {
  [S in keyof Answers<P, M> & (200 | 201 | 204)]: JsonOf<Answers<P, M>[S]>;
}[keyof Answers<P, M> & (200 | 201 | 204)];

export type BodyOf<P extends Path, M> =
  Operation<P, M> extends { requestBody?: { content: { 'application/json': infer B } } } ? B : undefined;
export type QueryOf<P extends Path, M> =
  Operation<P, M> extends { parameters: { query?: infer Q } } ? Q : undefined;

type NamesIn<P> = P extends `${string}{${infer Name}}${infer Rest}` ? Name | NamesIn<Rest> : never;
/** Read from the path itself: whatever stands in braces is needed. */
export type PathParametersOf<P extends Path> = [NamesIn<P>] extends [never]
  ? undefined
  : Record<NamesIn<P>, string>;

export type OpenedSession = Reply<'/api/v1/sessions', 'post'>;
export type About = Reply<'/api/v1/about', 'get'>;
export type Person = Reply<'/api/v1/devices/current/people', 'get'>['items'][number];
export type Board = Reply<'/api/v1/board', 'get'>;
export type Bay = Board['bays'][number];
export type Technician = Board['technicians'][number];
export type Ticket = Board['tickets'][number];
export type Hold = Ticket['holds'][number];
export type Assignment = NonNullable<Ticket['assignment']>;
export type PartNeed = Reply<'/api/v1/repair-orders/{id}/part-needs', 'get'>['items'][number];
export type WorkContingency = Reply<'/api/v1/work-orders/{id}/contingencies', 'get'>['items'][number];
