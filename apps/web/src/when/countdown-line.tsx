import { useEffect, useRef, useState } from 'react';
import { leftWords, saidWords } from './countdown.js';

const LOOK_MS = 1000;

/** How long a place is still held: shown every second, read out only at a few. */
export function Countdown({ until, onOver }: { readonly until: number; readonly onOver: () => void }) {
  const [now, setNow] = useState(() => Date.now());
  const [said, setSaid] = useState('');
  const before = useRef(now);
  const over = useRef(onOver);
  useEffect(() => {
    over.current = onOver;
  });
  useEffect(() => {
    const look = (): void => {
      const at = Date.now();
      const words = saidWords(until, before.current, at);
      before.current = at;
      setNow(at);
      if (words !== '') setSaid(words);
      if (at >= until) over.current();
    };
    const timer = window.setInterval(look, LOOK_MS);
    return () => window.clearInterval(timer);
  }, [until]);
  return (
    <>
      <p className="left">{leftWords(until, now)}</p>
      <p role="status" className="vh">
        {said}
      </p>
    </>
  );
}
