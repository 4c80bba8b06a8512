import { computed, reactive, ref, watch } from 'vue';
import { useRoute, useRouter } from 'vue-router';
import type { SmokeFinding } from '../../../bridge/contract.ts';
import { toast } from '../../parts/index.ts';
import { fieldOf, problemMessage } from '../../texts/problem-message.ts';
import { useCall } from '../../calls/useCall.ts';
import { useShop } from '../../stores/shop.ts';
import { useLive } from '../../use/useLive.ts';
import { text } from '../../../words/compiled/window/smokehouse.ts';
import { emptyRecipe, readRecipe, typeRecipe } from './recipe-form.ts';
import { pairsOf } from '../words.ts';

/** One recipe as it is written: its form, what a check finds of it while it is typed, and how it is saved. */
export function useRecipe() {
  const shop = useShop();
  const route = useRoute();
  const router = useRouter();
  const id = computed(() => Number(route.params.id) || null);
  const versionId = computed(() => Number(route.query.version) || null);
  const { value: list } = useLive('recipes.list', () => ({}));
  const { value: page, problem: pageProblem } = useLive('recipes.get', () =>
    id.value ? { id: id.value, versionId: versionId.value } : null,
  );
  const save = useCall('recipes.save');
  const form = reactive(emptyRecipe());
  /** Typed text stays when another window changes something else. */
  watch(
    () => page.value?.versionId,
    () => page.value && Object.assign(form, typeRecipe(page.value, shop.unit)),
  );
  const read = computed(() => readRecipe(form, shop.unit));
  const { value: check, problem } = useLive(
    'recipes.check',
    () => (read.value.body && list.value ? { body: read.value.body } : null),
    { waitMs: 250 },
  );
  const tried = ref(false);
  const wrong = computed(() => (tried.value ? read.value.wrong : {}));
  const newest = computed(() => page.value?.versions[0]?.versionId ?? null);
  const place = (code: string): string => code.split('.')[0] ?? '';
  const CURE = new Set(['cure', 'cures', 'nitrate']);
  const aboutCure = ({ code }: SmokeFinding): boolean => CURE.has(place(code));
  const cureFindings = computed(() => check.value?.findings.filter(aboutCure) ?? []);
  const otherFindings = computed(() => check.value?.findings.filter((one) => !aboutCure(one)) ?? []);
  const refused = computed(() => save.problem.value ?? problem.value);
  const refusedAt = (...fields: string[]): string | undefined => {
    const about = refused.value;
    return about && fields.includes(fieldOf(about)) ? problemMessage(about, shop.format) : undefined;
  };

  const offered = computed(() =>
    (list.value?.ingredients ?? []).filter(
      (one) => one.offered || form.additions.some(({ ingredient }) => Number(ingredient) === one.id),
    ),
  );
  const meatColumns = [
    { key: 'kind', label: text.meatKind, options: pairsOf(text.meatKinds) },
    { key: 'name', label: text.name },
    { key: 'share', label: text.share, number: true },
    { key: 'fat', label: text.fat, number: true },
  ];
  const additionColumns = computed(() => [
    {
      key: 'ingredient',
      label: text.ingredient,
      options: [['', text.pick], ...offered.value.map((one) => [String(one.id), one.name])] as [string, string][],
    },
    { key: 'typed', label: text.amount, number: true },
    { key: 'unit', label: text.unit, options: ['oz', 'lb', 'g', 'kg'].map((unit) => [unit, unit] as const) },
    { key: 'per', label: text.per, options: [['100 lb', text.per100lb], ['kg', text.perKg]] as const },
    { key: 'role', label: text.role, options: pairsOf(text.roles) },
    ...(form.method === 'pumped' || form.method === 'immersed'
      ? [{ key: 'into', label: text.into, options: [['meat', text.intoMeat], ['pickle', text.intoPickle]] as const }]
      : []),
  ]); // prettier-ignore
  const stepColumns = [
    { key: 'what', label: text.step },
    { key: 'oven', label: text.oven, number: true },
    { key: 'humidity', label: text.humidity, number: true },
    { key: 'minutes', label: text.minutes, number: true },
    { key: 'until', label: text.until, number: true },
  ];
  const standards = [['', text.standards.none], ...pairsOf(text.standards).slice(1)] as const;
  const cooling = computed(() => [
    ['', text.coolingNone] as const,
    ...(list.value?.cooling ?? []).map(
      ({ code, name, confirmed }) => [code, confirmed ? name : text.coolingUnconfirmed({ name })] as const,
    ),
  ]);
  const lossKinds = computed(() =>
    (list.value?.lossKinds ?? []).map(({ code, name }) => [code, name] as const),
  );

  async function submit(): Promise<void> {
    tried.value = true;
    const { body } = read.value;
    if (!body) return;
    const { name, product, reason } = form;
    const answer = await save.run({ id: id.value, name, product, reason, body });
    if (!answer.ok) return;
    toast(text.saved({ name }));
    tried.value = false;
    form.reason = '';
    await router.replace(`/smokehouse/recipe/${answer.value.id}`);
  }

  return {
    id, list, page, pageProblem, save, form, read, check, tried, wrong, newest, cureFindings, otherFindings, refused, refusedAt,
    offered, meatColumns, additionColumns, stepColumns, standards, cooling, lossKinds, submit,
  }; // prettier-ignore
}
