import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager, type QueryRunner } from 'typeorm';
import type { Result } from '#libs/kernel';
import { Clock } from '../clock.js';
import { actorId, type RequestContext } from '../context.js';
import { ProblemError } from '../http/problem-error.js';
import { Reactions } from '../queue/reactions.js';
import { databaseUnavailable, problemOfDatabaseError, sqlState } from './constraint-problems.js';
import { beginIdempotent, storeAnswer } from './idempotency.js';
import { Tx } from './tx.js';

const SERIALIZATION_FAILURE = '40001';
const DEADLOCK = '40P01';
const ATTEMPTS = 4;

/**
 * Ends with the transaction, as everything set here does. A statement or a lock that takes longer than this is a fault
 * of ours, and a process that stopped in the middle (a debugger, a frozen machine) must not hold its locks for ever.
 */
const LIMITS = `set_config('statement_timeout', '30s', true), set_config('lock_timeout', '10s', true),
                set_config('idle_in_transaction_session_timeout', '60s', true)`;

/** What a transaction may see and do: the rows of one shop, or the staff of one address that signs in. */
interface Scope {
  readonly mode: 'read only' | 'read write';
  readonly shopId: string;
  readonly email?: string;
}

/**
 * One use case, one transaction. The transaction takes the server's own role and the shop with settings that end with
 * it, so row-level security holds behind a proxy that hands the same connection to someone else next. A fault rolls
 * everything back; live events, jobs, audit rows and the answer kept for an idempotency key commit with the rest.
 */
@Injectable()
export class UnitOfWork {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
    private readonly reactions: Reactions = new Reactions(),
  ) {}

  /** Runs a use case that writes. Throws ProblemError for a fault. */
  async run<T>(ctx: RequestContext, work: (tx: Tx) => Promise<Result<T>>): Promise<T> {
    for (let attempt = 1; ; attempt += 1) {
      try {
        return await this.once(ctx, work);
      } catch (error) {
        const state = sqlState(error);
        if ((state === SERIALIZATION_FAILURE || state === DEADLOCK) && attempt < ATTEMPTS) continue;
        throw problemOfDatabaseError(error) ?? error;
      }
    }
  }

  /** Runs a query. The transaction is read-only: a GET that writes fails here, not in review. */
  async read<T>(ctx: RequestContext, query: (tx: Tx) => Promise<Result<T>>): Promise<T> {
    return this.inTransaction({ mode: 'read only', shopId: ctx.shopId }, async (runner) => {
      const tx = this.tx(ctx, runner.manager);
      const result = await query(tx);
      if (!result.ok) throw new ProblemError(result.fault);
      if (tx.hasJobs) throw new Error('a query queues no jobs');
      return result.value;
    });
  }

  /**
   * For sign-in, when the shop is not known yet: sees the staff rows that carry exactly this address (a policy of
   * their own), and nothing else.
   */
  async bySignInAddress<T>(email: string, query: (em: EntityManager) => Promise<T>): Promise<T> {
    return this.inTransaction({ mode: 'read only', shopId: '', email }, (runner) => query(runner.manager));
  }

  private async once<T>(ctx: RequestContext, work: (tx: Tx) => Promise<Result<T>>): Promise<T> {
    return this.inTransaction({ mode: 'read write', shopId: ctx.shopId }, async (runner) => {
      const tx = this.tx(ctx, runner.manager);
      if (ctx.idempotency) {
        const earlier = await beginIdempotent(tx, actorId(ctx.actor), ctx.idempotency);
        if (earlier !== undefined) {
          ctx.onReplay?.();
          return earlier.body as T;
        }
      }
      const result = await work(tx);
      if (!result.ok) throw new ProblemError(result.fault);
      if (ctx.idempotency) await storeAnswer(tx, actorId(ctx.actor), ctx.idempotency, result.value);
      this.reactions.to(tx.announced, tx);
      await tx.flush();
      return result.value;
    });
  }

  private async inTransaction<T>(scope: Scope, work: (runner: QueryRunner) => Promise<T>): Promise<T> {
    const runner = this.dataSource.createQueryRunner();
    try {
      await this.open(runner, scope);
      const value = await work(runner);
      await runner.commitTransaction();
      return value;
    } catch (error) {
      // Only a connection that broke releases the runner before us; what then fails is whatever came next.
      const broke = runner.isReleased && !(error instanceof ProblemError);
      // The connection may be gone; the first error is the one worth telling.
      if (runner.isTransactionActive) await runner.rollbackTransaction().catch(() => undefined);
      throw broke ? databaseUnavailable(error) : error;
    } finally {
      await runner.release();
    }
  }

  private async open(runner: QueryRunner, { mode, shopId, email = '' }: Scope): Promise<void> {
    try {
      await runner.startTransaction();
    } catch (error) {
      throw databaseUnavailable(error);
    }
    await runner.query(
      `select set_config('transaction_read_only', $3, true), set_config('role', 'bayledger_app', true),
              set_config('app.shop_id', $1, true), set_config('app.sign_in_email', $2, true), ${LIMITS}`,
      [shopId, email, mode === 'read only' ? 'on' : 'off'],
    );
  }

  private tx(ctx: RequestContext, manager: EntityManager): Tx {
    return new Tx(ctx.shopId, ctx.actor, this.clock.now(), manager, this.clock.wall());
  }
}
