import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { call } from '../api/client.js';
import { type Refused, valueOf } from '../estimate/answers.js';
import { useSettled } from '../estimate/use-settled.js';
import { TextField } from '../ui/text-field.js';
import type { CallDraft, KnownVehicle } from './call-draft.js';
import { FoundList } from './found-list.js';
import type { VehicleMatch } from './when-types.js';

interface VehicleBoxProps {
  readonly draft: CallDraft;
  readonly fault: (pointer: string) => string | undefined;
  readonly onChange: (change: Partial<CallDraft>) => void;
}

export const wordsOf = (one: Pick<VehicleMatch, 'make' | 'model' | 'modelYear' | 'plate'>): string =>
  [one.make, one.model, one.modelYear, one.plate].filter((word) => word !== null).join(' ');

/** Which car: one of the shop's by plate or name, else in words with its weight. */
export function VehicleBox({ draft, fault, onChange }: VehicleBoxProps) {
  const found = useVehicles(draft.vehicleWords, draft.vehicle === null);
  const pick = async (match: VehicleMatch): Promise<void> => {
    const known = await call('get', '/api/v1/vehicles/{id}', { path: { id: match.id } });
    const vehicle: KnownVehicle = {
      ...{ id: match.id, words: wordsOf(match), customerName: match.customer.displayName },
      weightKg: known.ok ? known.value.weightKg : null,
    };
    onChange({ vehicle, weight: '' });
  };
  const { vehicle } = draft;
  return (
    <>
      {vehicle === null ? (
        <FoundList
          label="Which vehicle?"
          hint="Plate, name or make. A car we do not know: in their words."
          fault={fault('/vehicleId')}
          text={draft.vehicleWords}
          onText={(vehicleWords) => onChange({ vehicleWords })}
          found={found}
          keyOf={({ id }) => id}
          show={(match) => (
            <>
              {wordsOf(match)} <span className="beside">{match.customer.displayName}</span>
            </>
          )}
          onPick={(match) => void pick(match)}
          nothing="Not known here; it is kept in these words."
          autoFocus
        />
      ) : (
        <div className="picked">
          <p>
            <b>{vehicle.words}</b> <span className="beside">{vehicle.customerName}</span>
            {vehicle.weightKg !== null && <span className="beside">{vehicle.weightKg} kg</span>}
          </p>
          <button type="button" className="plain" onClick={() => onChange({ vehicle: null })}>
            Another vehicle
          </button>
        </div>
      )}
      {(vehicle === null || vehicle.weightKg === null) && (
        <TextField
          label="Weight in kg"
          hint="From its plate or papers. Without it nothing goes on a lift."
          inputMode="numeric"
          autoComplete="off"
          required={false}
          fault={fault('/weightKg')}
          value={draft.weight}
          onText={(weight) => onChange({ weight })}
        />
      )}
    </>
  );
}

/** Vehicles of the shop by what was typed. */
export function useVehicles(words: string, enabled: boolean): readonly VehicleMatch[] {
  const q = useSettled(words.trim(), 200);
  const query = useQuery<readonly VehicleMatch[], Refused>({
    queryKey: ['vehicles', q],
    queryFn: async ({ signal }) =>
      (await valueOf(call('get', '/api/v1/search', { query: { q }, signal }))).vehicles.slice(0, 6),
    placeholderData: keepPreviousData,
    retry: false,
    enabled: enabled && q !== '',
  });
  return enabled && words.trim() !== '' ? (query.data ?? []) : [];
}
