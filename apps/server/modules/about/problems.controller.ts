import { Controller, Get, Header, Param } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import { PROBLEMS } from '../../platform/http/problem-codes.js';
import { OpenToAll } from '../../platform/http/route.js';
import { problemInWords } from './problem-in-words.js';

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
    return problemInWords(code);
  }
}
