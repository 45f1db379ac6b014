import { applyDecorators, HttpCode, SetMetadata, type Type } from '@nestjs/common';
import {
  ApiCreatedResponse,
  ApiHeader,
  ApiNoContentResponse,
  ApiOkResponse,
  ApiProperty,
} from '@nestjs/swagger';
import { ListOf, Text, Whole } from './fields.js';

/** The problem document (RFC 9457), for the OpenAPI description. */
export class FieldProblem {
  @Text({ description: 'JSON pointer (RFC 6901) into the request.' }) pointer: string;
  @Text({ description: 'What is wrong and what to do.' }) detail: string;
}

export class Problem {
  @Text({ example: '/problems/not-found' }) type: string;
  @Text() title: string;
  @Whole({ min: 400, max: 599 }) status: number;
  @Text({ max: 1000 }) detail: string;
  @Text() instance: string;
  @Text({ description: 'Stable; the last part of `type`.' }) code: string;
  @ListOf(() => FieldProblem, { optional: true }) fields?: FieldProblem[];
}

const idempotencyKey = ApiHeader({
  name: 'Idempotency-Key',
  required: false,
  description:
    'A quoted text, new for every act. The same key with the same request gives the first answer again.',
});

/** 200 with a body. */
export const Answers = (type: Type): MethodDecorator =>
  applyDecorators(HttpCode(200), ApiOkResponse({ type }));
/** 201 with the new record; the POST takes an Idempotency-Key. */
export const Creates = (type: Type): MethodDecorator =>
  applyDecorators(HttpCode(201), ApiCreatedResponse({ type }), idempotencyKey);
/** 200 for a POST that acts on something; takes an Idempotency-Key. */
export const Acts = (type: Type): MethodDecorator =>
  applyDecorators(HttpCode(200), ApiOkResponse({ type }), idempotencyKey);
/** 204 without a body. */
export const Empties = (): MethodDecorator => applyDecorators(HttpCode(204), ApiNoContentResponse());
/** A change of a document needs the version that it is based on. */
export const NeedsVersion = (): MethodDecorator =>
  ApiHeader({ name: 'If-Match', required: true, description: 'The ETag of the document as read.' });

export const WHOLE_IN_VERSION = 'bayledger:whole-in-version';
/** Nothing in this GET's answer comes from other records, so an unchanged version means an unchanged answer (304). */
export const WholeInVersion = (): MethodDecorator => SetMetadata(WHOLE_IN_VERSION, true);

export interface Page<T> {
  readonly items: T[];
  readonly nextCursor: string | null;
}

const pages = new Map<Type, Type>();

/** The page type of an item type, made once so that the OpenAPI document names it once. */
export function PageOf(item: Type): Type<Page<unknown>> {
  const known = pages.get(item);
  if (known) return known as Type<Page<unknown>>;
  class PageType {
    @ListOf(() => item) items: unknown[];
    @ApiProperty({
      type: String,
      nullable: true,
      description: 'Give it as `cursor` for the next page; null at the end.',
    })
    nextCursor: string | null;
  }
  Object.defineProperty(PageType, 'name', { value: `${item.name.replace(/Response$/, '')}Page` });
  pages.set(item, PageType);
  return PageType;
}
