import { setLight, useLight } from './light.js';

/** For under a lift and for the evening; the same ink and marks on dark paper. */
export function LightSwitch() {
  const light = useLight();
  return (
    <button
      type="button"
      className="plain light-switch"
      role="switch"
      aria-checked={light === 'dim'}
      onClick={() => setLight(light === 'dim' ? 'day' : 'dim')}
    >
      <svg viewBox="0 0 20 20" aria-hidden="true">
        <path
          d="M4 12a6 6 0 0 1 12 0z"
          fill={light === 'dim' ? 'none' : 'currentColor'}
          stroke="currentColor"
          strokeWidth="2"
        />
        <path d="M10 6V1.5M2 12h16" stroke="currentColor" strokeWidth="2" />
      </svg>
      Dim
    </button>
  );
}
