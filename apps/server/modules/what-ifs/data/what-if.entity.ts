import { Check, Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';
import type { Comparison } from '#libs/what-if';
import type { WhatIfQuestion } from './what-if-question.js';

/** A question and what came of it. The shop in it is the one of the moment at which it was asked. */
@Check('what_ifs_ended_somehow', '(num_nonnulls(answer, failed_reason) = num_nonnulls(ended_at))')
@Check('what_ifs_started_first', '((ended_at IS NULL) OR (started_at IS NOT NULL))')
@ForeignKey('StaffMemberRow', ['shopId', 'askedBy'], ['shopId', 'id'], { name: 'what_ifs_asked_by' })
@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'what_ifs_shop' })
@Entity('what_ifs')
export class WhatIfRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'what_ifs_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'what_ifs_pkey' })
  id: string;

  @Column('uuid', { name: 'asked_by' })
  askedBy: string;

  @Column('timestamptz', { name: 'asked_at' })
  askedAt: Date;

  @Column('jsonb')
  question: WhatIfQuestion;

  @Column('timestamptz', { name: 'started_at', nullable: true })
  startedAt: Date | null;

  @Column('timestamptz', { name: 'ended_at', nullable: true })
  endedAt: Date | null;

  @Column('jsonb', { nullable: true })
  answer: Comparison | null;

  @Column('text', { name: 'failed_reason', nullable: true })
  failedReason: string | null;
}
