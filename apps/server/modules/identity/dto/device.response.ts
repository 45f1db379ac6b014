import { Instant, ListOf, Text, Uuid } from '../../../platform/http/fields.js';

export class DeviceResponse {
  @Uuid() id: string;
  @Text() name: string;
  @Uuid({ nullable: true }) bayId: string | null;
  @Uuid() enrolledBy: string;
  @Instant() enrolledAt: string;
  @Instant({ nullable: true }) revokedAt: string | null;
}

export class EnrolledDeviceResponse extends DeviceResponse {
  @Text({ description: 'Shown this once. Keep it on the tablet and send it as X-Device-Token.' })
  deviceToken: string;
}

export class DevicesResponse {
  @ListOf(() => DeviceResponse) items: DeviceResponse[];
}

export class TabletPersonResponse {
  @Uuid() id: string;
  @Text() displayName: string;
}

export class TabletPeopleResponse {
  @ListOf(() => TabletPersonResponse) items: TabletPersonResponse[];
}
