/**
 * The one place that reads the time. Business facts are stamped with it; nothing in libs/ ever is.
 * `rate` above 1 makes shop time run faster than the wall clock, from the moment `since`: a demonstration of a whole day
 * then takes seconds. Tokens and sessions live on the wall clock and are not touched by it.
 */
export class Clock {
  constructor(
    readonly rate = 1,
    private readonly since = Date.now(),
  ) {}

  now(): Date {
    const wall = Date.now();
    return this.rate === 1 ? new Date(wall) : new Date(this.since + (wall - this.since) * this.rate);
  }

  wall(): Date {
    return new Date();
  }
}

/** For tests: stands still until it is told otherwise. */
export class StillClock extends Clock {
  constructor(private at: Date) {
    super(1);
  }

  override now(): Date {
    return this.at;
  }

  set(at: Date): void {
    this.at = at;
  }

  passMinutes(minutes: number): void {
    this.at = new Date(this.at.getTime() + minutes * 60_000);
  }
}
