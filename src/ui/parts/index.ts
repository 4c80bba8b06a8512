/*
 * Exports all parts of the window.
 *
 *   <Card title tone?> slots: default, title, aside     <Button variant="main|plain|attention|quiet" keys? busy? big?>
 *   <Field v-model label type? hint? problem?>          slot replaces the input: { id, describedby, invalid }
 *   <WeightEntry v-model label size="big|small" saveLabel? busy? problem? hint? @save @key>  .focus() .clear()
 *   <Choice v-model label :options="ChoiceOption[]" columns? keys?="true|'always'" tall? hideLabel? problem? @pick>  .focus()
 *   <Check v-model label value?>   <FilePick label reading? @pick>
 *   <Combobox v-model(text) label :options="PickOption[]" hint? problem? openEmpty? @pick>      .focus()
 *   <Message kind="problem|ask|caution|notice|good" title? source?> slots: default, actions
 *   <Question title? :answers="Answer[]" about? standing? @digit> slot: the question; Y and N mean the same everywhere
 *   <ConfirmQuestion :question label? @yes @no> a question of the desk about a day or a name (calls/useConfirm.ts)
 *   <DataTable :columns :rows :row-key caption showCaption? rowClass?> slots: cell-KEY { row }
 *   <Dialog v-model:open title wide? @opened>   <Tabs v-model label :tabs="{ value, label }[]"> the open panel
 *   <ReasonDialog v-model:open title label :reasons other reason confirm cancel @confirm> a press on a reason performs it
 *   <Empty title text?> slot: actions   <Flag kind="attention|care|calm">   <Kbd keys>
 *   <PageHead title :back="{ to, name }"> slots: default, actions; the head of a page below a place
 *   <Paper day title terms?> a printed sheet with the letterhead   <Facts :facts="[label, value][]"> without empty ones
 *   <MassText :grams places?>   <MoneyText :minor>   <RangeText :low :high kind="mass|share|money" places?>
 *   toast(text, undo?)   readingIn(typed, unit)   loadsIn(typed, unit) also of a sum
 *
 * Also: useShop() (stores/shop.ts: view, settings, unit, step, today, by, format, species(), cautions(), take(view)),
 * useCall(name) (calls/), useLive(name, () => input) (use/), problemMessage(problem, shop.format) (texts/problem-message.ts),
 * words (words/compiled/shared/common.ts), useTheme() (stores/theme.ts). Layout classes of
 * look/layout.css: page, page-halves, page-wide, stack, row, row-apart, fields, muted, small, number, figure, no-print.
 */
export { default as ConfirmQuestion } from './question/ConfirmQuestion.vue';
export { default as Card } from './Card.vue';
export { default as Check } from './Check.vue';
export { default as Choice } from './Choice.vue';
export { default as DataTable } from './DataTable.vue';
export { default as Dialog } from './Dialog.vue';
export { default as Empty } from './Empty.vue';
export { default as Facts } from './Facts.vue';
export { default as Field } from './Field.vue';
export { default as FilePick } from './FilePick.vue';
export { default as Flag } from './Flag.vue';
export { default as Kbd } from './Kbd.vue';
export { default as MassText } from './MassText.vue';
export { default as MoneyText } from './MoneyText.vue';
export { default as Question } from './question/Question.vue';
export { default as PageHead } from './PageHead.vue';
export { default as Paper } from './Paper.vue';
export { default as Combobox } from './Combobox.vue';
export { default as Button } from './Button.vue';
export { default as RangeText } from './RangeText.vue';
export { default as Message } from './Message.vue';
export { default as Tabs } from './Tabs.vue';
export { default as WhyDialog } from './WhyDialog.vue';
export { default as ReasonDialog } from './question/ReasonDialog.vue';
export { default as WeightEntry } from './WeightEntry.vue';
export { answerTo, type Answer } from './question/answers.ts';
export type { ChoiceOption } from './Choice.vue';
export type { PickOption } from './Combobox.vue';
export type { Fact } from './Facts.vue';
export { toast } from './toasts.ts';
export { loadsIn, readingIn } from './weight-echo.ts';
