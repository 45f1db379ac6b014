import { Instant, ListOf, Nested, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';
import { RevisionResponse } from './revision.response.js';

const validHours = { min: 1, max: 8760, optional: true, unit: 'hours' } as const;

export class SendRevisionRequest {
  @Whole({ ...validHours, description: "How long offer and link hold; unless given: the shop's setting." })
  validHours?: number;
}

export class MakeLinkRequest {
  @Whole({ ...validHours, description: "How long the link opens; unless given: the shop's setting." })
  validHours?: number;
}

export class LinkResponse {
  @Uuid() id: string;
  @Uuid() revisionId: string;
  @Whole({ min: 1 }) revisionNumber: number;
  @OneOf(['open', 'expired', 'revoked']) state: string;
  @Instant() madeAt: string;
  @Text() madeBy: string;
  @Instant() expiresAt: string;
  @Instant({ nullable: true }) revokedAt: string | null;
  @Instant({
    nullable: true,
    description: 'When the owner first did something on it; reading leaves no trace.',
  })
  firstOpenedAt: string | null;
}

export class NewLinkResponse extends LinkResponse {
  @Text({ max: 400, description: 'Shown this once. Only a hash of it is stored.' }) url: string;
}

export class LinksResponse {
  @ListOf(() => LinkResponse) items: LinkResponse[];
}

export class SentRevisionResponse {
  @Nested(() => RevisionResponse) revision: RevisionResponse;
  @Nested(() => NewLinkResponse) link: NewLinkResponse;
}
