// @vitest-environment happy-dom
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { nextTick, reactive } from 'vue';
import { quartersOf } from '../../../src/core/species/cutting.ts';
import { SPECIES } from '../../../src/desk/supplied/resources.ts';
import { emptyIntake, missingIn } from '../../../src/ui/intake/intake-form.ts';
import PiecesBrought from '../../../src/ui/orders/PiecesBrought.vue';
import { usePrefilledQuarters } from '../../../src/ui/orders/usePrefilledQuarters.ts';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow());

const DEER = [{ code: 'neck' }, { code: 'shoulder' }, { code: 'haunch' }];
const BEAR = [{ code: 'neck' }, { code: 'shoulder' }, { code: 'ham' }];

function form(brought: 'quarters' | 'skinned' | '' = '') {
  const state = reactive({
    form: {
      brought: brought as 'quarters' | 'primals' | 'skinned' | '',
      parts: {} as Record<string, number>,
    },
    primals: DEER,
  });
  mountPart({
    setup: () => {
      usePrefilledQuarters(
        () => state.form,
        () => state.primals,
      );
      return () => null;
    },
  });
  return state;
}

describe('a quartered animal', () => {
  it.each(SPECIES.map(({ code, primals }) => [code, primals] as const))(
    'has two fronts and two hinds: %s',
    (_, primals) => expect(Object.values(quartersOf(primals))).toEqual([2, 2]),
  );

  it('has prefilled counts, which are removed for another condition', async () => {
    const state = form();
    state.form.brought = 'quarters';
    await nextTick();
    expect(state.form.parts).toEqual({ shoulder: 2, haunch: 2 });
    state.form.brought = 'skinned';
    await nextTick();
    expect(state.form.parts).toEqual({});
  });

  it('keeps typed counts, but not for another kind of animal', async () => {
    const state = form();
    state.form.brought = 'quarters';
    await nextTick();
    state.form.parts['haunch'] = 1;
    state.form.brought = 'primals';
    await nextTick();
    expect(state.form.parts).toEqual({ shoulder: 2, haunch: 1 });
    state.form.brought = 'quarters';
    state.primals = BEAR;
    await nextTick();
    expect(state.form.parts).toEqual({ shoulder: 2, ham: 2 });
  });
});

describe('a count of pieces', () => {
  const primals = [
    { code: 'shoulder', name: 'Shoulder' },
    { code: 'haunch', name: 'Hind leg' },
  ];

  it.each([
    [9, true],
    [1.5, true],
    [-1, true],
    [8, false],
    [0, false],
  ])('of %d is reported as implausible: %s', (count, wrong) => {
    const wrapper = mountPart(PiecesBrought, {
      props: { primals, legend: 'Pieces', modelValue: { shoulder: 2, haunch: count } },
    });
    const says = wrapper.findAll('[role=alert]').map((one) => one.text());
    expect(says).toEqual(wrong ? ['Hind leg: type a whole number from 0 to 8.'] : []);
    const marked = wrapper.findAll('[aria-invalid]').map((one) => one.attributes('aria-label'));
    expect(marked).toEqual(wrong ? ['Pieces of Hind leg'] : []);
    const filled = {
      ...emptyIntake('lb'),
      brought: 'quarters',
      parts: { haunch: count, shoulder: 2 },
    } as const;
    expect(Boolean(missingIn(filled).parts)).toBe(wrong);
  });
});
