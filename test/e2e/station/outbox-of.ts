/** The outbox of a station's page, for entries at a place without a screen of its own in a test. */
import type { Page } from 'playwright-core';
import type { CallInput } from '../../../src/bridge/contract.ts';
import type { EntryName } from '../../../src/ui/station/line.ts';

interface MountedPage extends Element {
  __vue_app__: {
    config: {
      globalProperties: {
        $pinia: { _s: Map<string, { save(call: string, input: unknown, shown: string): Promise<string> }> };
      };
    };
  };
}

/** Saves an entry as a screen of the station does. */
export function saveAt<N extends EntryName>(page: Page, call: N, input: CallInput<N>, shown: string) {
  return page.evaluate(
    ([name, values, text]) => {
      const app = (document.querySelector('#station') as MountedPage).__vue_app__;
      const line = app.config.globalProperties.$pinia._s.get('line');
      if (!line) throw new Error('The page has no line.');
      return line.save(name, values, text);
    },
    [call, input, shown] as const,
  );
}
