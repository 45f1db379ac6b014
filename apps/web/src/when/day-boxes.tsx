import { shiftDay } from '../board/zone-time.js';
import { Field } from '../ui/field.js';

interface DayBoxesProps {
  readonly today: string;
  readonly days: readonly string[];
  readonly time: string;
  readonly fault: string | undefined;
  readonly onChange: (change: { days?: readonly string[]; time?: string }) => void;
}

const SHOWN = 8;

const dayName = new Intl.DateTimeFormat('en-GB', { timeZone: 'UTC', weekday: 'short', day: 'numeric' });
const shortDay = (day: string): string => dayName.format(Date.parse(`${day}T00:00:00Z`)).replace(',', '');

/** When the car could be brought: days to tick, and from which hour on. */
export function DayBoxes({ today, days, time, fault, onChange }: DayBoxesProps) {
  const shown = Array.from({ length: SHOWN }, (_, at) => shiftDay(today, at));
  return (
    <fieldset className="brought">
      <legend>When could it be brought?</legend>
      <div className="days">
        {shown.map((day, at) => (
          <label key={day}>
            <input
              type="checkbox"
              checked={days.includes(day)}
              onChange={() =>
                onChange({ days: days.includes(day) ? days.filter((one) => one !== day) : [...days, day] })
              }
            />
            <span>{at === 0 ? 'Today' : shortDay(day)}</span>
          </label>
        ))}
      </div>
      <p className={fault === undefined ? 'hint' : 'wrong'}>
        {fault ?? 'None ticked: as soon as can be, and on the next mornings.'}
      </p>
      <Field label="From" hint="Empty: when we open">
        {(attributes) => (
          <input
            {...attributes}
            type="time"
            step={300}
            value={time}
            onChange={(event) => onChange({ time: event.target.value })}
          />
        )}
      </Field>
    </fieldset>
  );
}
