import { Controller, Get, Header, Param } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import { isProblemCode, PROBLEMS } from '../../platform/http/problem-codes.js';
import { problem } from '../../platform/http/problem-error.js';
import { OpenToAll } from '../../platform/http/route.js';

/** Where the `type` of a problem leads: its meaning, in words that do not change. */
@ApiExcludeController()
@Controller('problems')
export class ProblemsController {
  @Get()
  @OpenToAll()
  @Header('content-type', 'application/json; charset=utf-8')
  all(): Record<string, { status: number; title: string }> {
    return PROBLEMS;
  }

  @Get(':code')
  @OpenToAll()
  @Header('content-type', 'text/plain; charset=utf-8')
  one(@Param('code') code: string): string {
    if (!isProblemCode(code)) throw problem('not-found', 'There is no problem of this name.');
    return `${code}\n${PROBLEMS[code].title} (status ${PROBLEMS[code].status}).\n`;
  }
}
