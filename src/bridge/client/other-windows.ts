/**
 * A second window of the same browser (a link in a new tab, a bookmark) gets the session from the first. Only
 * windows of this browser and origin receive the message.
 */
import { SESSION, type SessionStore } from './session.ts';

const CHANNEL = 'gambrel.session';
/** Timeout for answers, ms. */
const TIMEOUT_MS = 400;

type Message = { asks: string } | { answers: string; session: string };

/** Answers session requests of other windows while this one exists; the returned function requests theirs. */
export function shareSession(store: SessionStore): () => Promise<string | null> {
  const channel = new BroadcastChannel(CHANNEL);
  channel.addEventListener('message', ({ data }: MessageEvent<Message>) => {
    const session = store.getItem(SESSION);
    if ('asks' in data && session !== null) post({ answers: data.asks, session });
  });
  const post = (message: Message) => channel.postMessage(message);
  return () =>
    new Promise((resolve) => {
      const own = crypto.randomUUID();
      const end = (session: string | null) => {
        channel.removeEventListener('message', onMessage);
        clearTimeout(timer);
        resolve(session);
      };
      const onMessage = ({ data }: MessageEvent<Message>) => {
        if ('answers' in data && data.answers === own) end(data.session);
      };
      const timer = setTimeout(() => end(null), TIMEOUT_MS);
      channel.addEventListener('message', onMessage);
      post({ asks: own });
    });
}
