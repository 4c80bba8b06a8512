import { useRouter } from 'vue-router';
import { call } from '../link/bridge.ts';
import { toast } from '../parts/index.ts';
import { text as frameText } from '../../words/compiled/window/frame.ts';
import { useJustOpened } from './just-opened.ts';

/** Opens an animal by its ticket, or shows a notice if there is none. Resolves to whether it was opened. */
export function useOpenTicket(): (ticket: string) => Promise<boolean> {
  const router = useRouter();
  const justOpened = useJustOpened();
  return async (ticket) => {
    const answer = await call('animals.get', { ticket });
    const place = `/table/${ticket}`;
    // An open page updates itself.
    if (answer.ok && router.currentRoute.value.path !== place) {
      justOpened.put(answer.value);
      await router.push(place);
    }
    if (!answer.ok) toast(frameText.noTicket({ ticket }));
    return answer.ok;
  };
}
