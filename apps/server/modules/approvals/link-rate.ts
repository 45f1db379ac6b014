import { RouteConfig } from '@nestjs/platform-fastify';

/** Plenty for a household behind one address, too few to try tokens; each has 256 bits, so this only saves the machine. */
const PER_MINUTE = 300;

export const LinkRate = (): MethodDecorator & ClassDecorator =>
  RouteConfig({ rateLimit: { max: PER_MINUTE, timeWindow: 60_000 } });
