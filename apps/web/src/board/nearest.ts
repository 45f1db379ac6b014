/** The next ticket on the screen in the direction of an arrow key. */
export function nearest(from: HTMLElement, key: string): HTMLElement | undefined {
  const here = from.getBoundingClientRect();
  const middle = (box: DOMRect): { x: number; y: number } => ({
    x: box.x + box.width / 2,
    y: box.y + box.height / 2,
  });
  const { x, y } = middle(here);
  const across = key === 'ArrowLeft' || key === 'ArrowRight';
  const sign = key === 'ArrowLeft' || key === 'ArrowUp' ? -1 : 1;
  const away = (element: HTMLElement): number => {
    const to = middle(element.getBoundingClientRect());
    const sameRow = Math.abs(to.y - y) < here.height / 2;
    const ahead = sign * (across ? to.x - x : to.y - y);
    if (ahead <= 1 || across !== sameRow) return Number.POSITIVE_INFINITY;
    return across ? ahead : ahead * 4 + Math.abs(to.x - x);
  };
  return [...document.querySelectorAll<HTMLElement>('.tk[data-ticket]')]
    .map((element) => ({ element, distance: away(element) }))
    .filter(({ distance }) => Number.isFinite(distance))
    .sort((a, b) => a.distance - b.distance)[0]?.element;
}
