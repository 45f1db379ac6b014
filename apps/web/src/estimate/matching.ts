import type { OrderSummary } from '../api/estimate-types.js';

const plain = (text: string): string =>
  text
    .toLowerCase()
    .normalize('NFD')
    .replace(/[^\p{L}\p{N} ]/gu, '');

/** Those that hold every word that was typed; plates also without their spaces. */
export function matching(orders: readonly OrderSummary[], text: string): OrderSummary[] {
  const words = plain(text).split(' ').filter(Boolean);
  return orders.filter((order) => {
    const plate = order.plate ?? '';
    const all = plain(
      [order.number, plate, plate.replaceAll(' ', ''), order.make, order.model, order.customerName].join(' '),
    );
    return words.every((word) => all.includes(word));
  });
}
