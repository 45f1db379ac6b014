import { Email, Text } from '../../../platform/http/fields.js';
import { PageQuery } from '../../../platform/http/pages.js';

export class AddCustomerRequest {
  @Text({ max: 120 }) displayName: string;
  @Text({ max: 60, optional: true, nullable: true, description: 'As the customer says it.' })
  phone?: string | null;
  @Email({ optional: true, nullable: true }) email?: string | null;
  @Text({ max: 400, optional: true, nullable: true }) address?: string | null;
  @Text({ max: 2000, optional: true, nullable: true }) note?: string | null;
}

export class ChangeCustomerRequest {
  @Text({ max: 120, optional: true }) displayName?: string;
  @Text({ max: 60, optional: true, nullable: true }) phone?: string | null;
  @Email({ optional: true, nullable: true }) email?: string | null;
  @Text({ max: 400, optional: true, nullable: true }) address?: string | null;
  @Text({ max: 2000, optional: true, nullable: true }) note?: string | null;
}

/** Without `q` the newest first, with it the best match first. */
export class FindQuery extends PageQuery {
  @Text({ max: 200, optional: true, description: 'Two letters or digits at least.' }) q?: string;
}

export class SearchQuery {
  @Text({ max: 200, description: 'Name, phone, plate, VIN, make or model; two letters or digits at least.' })
  q: string;
}
