// @vitest-environment happy-dom
import { expect, it } from 'vitest';
import Facts from '../../../src/ui/parts/Facts.vue';
import { mountPart } from '../mount-part.ts';

it('lists labels with their values, without empty ones', () => {
  const wrapper = mountPart(Facts, {
    props: {
      facts: [
        ['Hunter', 'Dana Whitlock'],
        ['Tag', ''],
        ['Weight', '84.00 lb'],
      ],
    },
  });
  expect(wrapper.element.tagName).toBe('DL');
  const texts = (selector: string): string[] => wrapper.findAll(selector).map((one) => one.text());
  expect(texts('dt')).toEqual(['Hunter', 'Weight']);
  expect(texts('dd')).toEqual(['Dana Whitlock', '84.00 lb']);
});
