import { useQuery } from '@tanstack/react-query';
import { type KeyboardEvent, useState } from 'react';
import { call } from '../api/client.js';
import type { OrderSummary } from '../api/estimate-types.js';
import { inShopTime } from '../board/zone-time.js';
import { MarkWithWord } from '../ui/marks.js';
import { Refusal, refusalWords } from '../ui/refusal.js';
import { TextField } from '../ui/text-field.js';
import { type Refused, askAgain, valueOf } from './answers.js';
import { matching } from './matching.js';
import { today } from './today.js';
import { stageWord } from './words.js';

interface FindProps {
  readonly zone: string;
  readonly onOpen: (id: string) => void;
}

/** The vehicles in the shop, to be found by what the caller says: a number, a plate, a name, a make. */
export function FindOrder({ zone, onOpen }: FindProps) {
  const [text, setText] = useState('');
  const query = useQuery<OrderSummary[], Refused>({
    queryKey: ['orders'],
    queryFn: async ({ signal }) =>
      (await valueOf(call('get', '/api/v1/repair-orders', { query: { here: 'yes', limit: 200 }, signal })))
        .items,
    retry: false,
    refetchInterval: askAgain,
  });
  const found = matching(query.data ?? [], text);
  const first = found[0];
  const press = (event: KeyboardEvent): void => {
    if (event.key === 'Enter' && first && text.trim() !== '') onOpen(first.id);
    if (event.key === 'ArrowDown') document.querySelector<HTMLElement>('.order-row')?.focus();
  };
  return (
    <main className="find">
      <h1>Which repair order?</h1>
      <div onKeyDown={press}>
        <TextField
          label="Number, plate, name or make"
          hint="Enter opens the first one"
          type="search"
          autoComplete="off"
          autoFocus
          value={text}
          onText={setText}
        />
      </div>
      <Refusal detail={query.error ? refusalWords(query.error) : undefined} />
      <p role="status" className="hint">
        {query.data && `${found.length} of ${query.data.length} in the shop`}
      </p>
      <ol className="orders">
        {found.map((order) => (
          <li key={order.id}>
            <OrderRow order={order} zone={zone} onOpen={onOpen} />
          </li>
        ))}
      </ol>
    </main>
  );
}

function OrderRow({ order, zone, onOpen }: FindProps & { readonly order: OrderSummary }) {
  return (
    <button type="button" className="order-row" onClick={() => onOpen(order.id)}>
      <span className="num">{order.number}</span>
      <span className="what">
        <b>
          {order.make} {order.model}
          {order.plate !== null && <span className="plate">{order.plate}</span>}
        </b>
        <span>{order.customerName}</span>
        <span className="said">“{order.concern}”</span>
      </span>
      <span className="stands">
        <b>{stageWord[order.stage]}</b>
        {order.isUnsafe && <MarkWithWord mark="unsafe" />}
        {order.promisedAt !== null && (
          <small>Promised {inShopTime(order.promisedAt, zone, today(zone))}</small>
        )}
      </span>
    </button>
  );
}
