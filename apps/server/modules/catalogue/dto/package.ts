import { POSITIONS, type Position } from '#libs/estimate';
import { Flag, ListOf, OneOf, Text, TextList, Uuid, Whole } from '../../../platform/http/fields.js';
import { CatalogueQuery } from './step.request.js';

export class PackageOperationEntry {
  @Uuid() operationId: string;
  @TextList({ values: POSITIONS, max: POSITIONS.length, description: 'Where on the vehicle it is done.' })
  positions: Position[];
}

export class AddPackageRequest {
  @Text({ max: 120, example: 'Timing belt with water pump' }) name: string;
  @Whole({
    min: 1,
    max: 100_000,
    unit: 'hundredths of an hour',
    description:
      "The shop's book time for all of it together: not less than any part of it takes, not more than its steps add up to.",
  })
  hundredths: number;
  @ListOf(() => PackageOperationEntry, { max: 20 }) operations: PackageOperationEntry[];
}

export class ChangePackageRequest {
  @Text({ max: 120, optional: true }) name?: string;
  @Whole({ min: 1, max: 100_000, unit: 'hundredths of an hour', optional: true }) hundredths?: number;
  @ListOf(() => PackageOperationEntry, { max: 20, optional: true }) operations?: PackageOperationEntry[];
  @Flag({ optional: true, description: 'False: no draft is priced by it any more.' }) isActive?: boolean;
}

export class PackagesQuery extends CatalogueQuery {
  @OneOf(['yes', 'no'], { optional: true, description: 'yes: also those that are no longer in use.' })
  all?: 'yes' | 'no';
}

export class PackageOperationResponse {
  @Uuid() operationId: string;
  @Text() code: string;
  @Text() name: string;
  @TextList() positions: string[];
}

export class PackageResponse {
  @Uuid() id: string;
  @Text() name: string;
  @Whole({ min: 1, description: 'Hundredths of an hour for all of it together.' }) hundredths: number;
  @ListOf(() => PackageOperationResponse) operations: PackageOperationResponse[];
  @Flag() isActive: boolean;
  @Whole({ min: 1 }) version: number;
}
