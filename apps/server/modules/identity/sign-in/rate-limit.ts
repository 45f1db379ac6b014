import { RouteConfig } from '@nestjs/platform-fastify';

/**
 * So many requests a minute from one network address. A whole shop sits behind one, so this only keeps machines from
 * making the server compute password hashes all day; single accounts are guarded by their own lock.
 */
export const PerMinute = (max: number): MethodDecorator & ClassDecorator =>
  RouteConfig({ rateLimit: { max, timeWindow: 60_000 } });
