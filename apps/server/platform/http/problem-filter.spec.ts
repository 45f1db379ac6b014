import type { ArgumentsHost } from '@nestjs/common';
import { pino } from 'pino';
import { QueryFailedError } from 'typeorm';
import { ProblemFilter } from './problem-filter.js';

describe('what is logged of a fault', () => {
  it('names the fault, and neither the values of a statement and its row nor the address that was asked for', () => {
    const lines: string[] = [];
    const filter = new ProblemFilter(pino({ level: 'info' }, { write: (line: string) => lines.push(line) }));
    const driverError = Object.assign(new Error('column "nothing" does not exist'), {
      code: '42703',
      table: 'staff',
      detail: 'Key (email)=(wenna@kestrelyard.example)',
    });
    const error = new QueryFailedError(
      'select nothing from staff where email = $1',
      ['wenna@secret.example'],
      driverError,
    );
    const reply = {
      sent: false,
      code: () => reply,
      header: () => reply,
      send: () => reply,
    };
    const request = {
      id: 'req-1',
      url: '/o/a-secret-token?x=1',
      method: 'GET',
      headers: {},
      routeOptions: { url: '/o/:token' },
    };
    const host = { switchToHttp: () => ({ getResponse: () => reply, getRequest: () => request }) };
    filter.catch(error, host as unknown as ArgumentsHost);
    expect(lines).toHaveLength(1);
    expect(JSON.parse(lines[0] ?? '')).toMatchObject({
      msg: 'unexpected error',
      requestId: 'req-1',
      route: '/o/:token',
      err: { code: '42703', table: 'staff', message: 'column "nothing" does not exist' },
    });
    expect(lines[0]).not.toMatch(/secret|wenna/);
  });
});
