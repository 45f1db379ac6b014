/** `67 %`; below one per cent it says so instead of showing a nought. */
export function ratioWords(ppm: number): string {
  if (ppm > 0 && ppm < 10_000) return 'under 1 %';
  return `${Math.round(ppm / 10_000)} %`;
}
