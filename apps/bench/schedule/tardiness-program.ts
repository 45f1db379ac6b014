import type { TardinessProblem } from '#libs/tardiness';

/**
 * The problem as an integer program in the LP file format (A. S. Manne 1960, from memory): s a start, y which of two jobs is
 * done first, t how late a job is. As large as the square of the jobs; with a hundred that is 4950 choices.
 */
export function tardinessProgram({ jobs }: TardinessProblem): string {
  const horizon = jobs.reduce((sum, { duration }) => sum + duration, 0);
  const rows: string[] = [];
  const orders: string[] = [];
  jobs.forEach(({ duration, due }, at) => {
    rows.push(`t${at} - s${at} >= ${duration - due}`);
    jobs.slice(at + 1).forEach((next, step) => {
      const other = at + 1 + step;
      const y = `y${at}_${other}`;
      orders.push(y);
      rows.push(`s${other} - s${at} - ${horizon} ${y} >= ${duration - horizon}`);
      rows.push(`s${at} - s${other} + ${horizon} ${y} >= ${next.duration}`);
    });
  });
  return [
    'Minimize',
    ` obj: ${jobs.map(({ weight }, at) => `${weight} t${at}`).join(' + ')}`,
    'Subject To',
    ...rows.map((row, at) => ` r${at}: ${row}`),
    'Bounds',
    ...jobs.map(({ duration }, at) => ` 0 <= s${at} <= ${horizon - duration}`),
    ...(orders.length > 0 ? ['Binary', ...orders.map((name) => ` ${name}`)] : []),
    'End',
    '',
  ].join('\n');
}
