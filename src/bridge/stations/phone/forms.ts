/**
 * The forms that were handed out to phones. A form is taken once: sent again, it gets the same answer. A page of another site
 * knows none, so it cannot send one in a hunter's name.
 */
import { randomBytes } from 'node:crypto';

/** Later, a form is handed out again with what was typed. */
const LIFE_MS = 2 * 60 * 60_000;
/** Beyond them the oldest go. */
const MOST = 500;

interface Form<P> {
  at: number;
  taking: Promise<P | null> | null;
}

/** @template P why a form is not taken */
export function phoneForms<P>(now: () => number) {
  const forms = new Map<string, Form<P>>();
  const isOver = ({ at }: Form<P>): boolean => now() - at > LIFE_MS;
  return {
    hand(): string {
      for (const [key, form] of forms)
        if (isOver(form) || forms.size >= MOST) forms.delete(key);
        else break;
      const key = randomBytes(16).toString('base64url');
      forms.set(key, { at: now(), taking: null });
      return key;
    },
    /**
     * @param take runs unless the form was taken, or is being taken
     * @returns undefined for a form that was not handed out, or too long ago
     */
    once(key: string, take: () => Promise<P | null>): Promise<P | null> | undefined {
      const form = forms.get(key);
      if (!form || isOver(form)) return undefined;
      form.taking ??= take().then((problem) => {
        if (problem !== null) form.taking = null;
        return problem;
      });
      return form.taking;
    },
  };
}
