import { type Answer, send } from '../api/transport.js';
import { openSession } from './session.js';

export async function signIn(
  email: string,
  password: string,
  shop?: string,
): Promise<Answer<'/api/v1/sessions', 'post'>> {
  const body = { email, password, delivery: 'cookie' as const, ...(shop ? { shop } : {}) };
  const answer = await send('post', '/api/v1/sessions', { body });
  if (answer.ok) openSession(answer.value);
  return answer;
}

export async function signInWithPin(
  staffId: string,
  pin: string,
  headers: Record<string, string>,
): Promise<Answer<'/api/v1/sessions/pin', 'post'>> {
  const answer = await send('post', '/api/v1/sessions/pin', {
    body: { staffId, pin, delivery: 'cookie' },
    headers,
  });
  if (answer.ok) openSession(answer.value);
  return answer;
}
