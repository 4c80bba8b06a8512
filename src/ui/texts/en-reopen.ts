/** Texts for reopening a closed animal. */
export const reopenText = {
  reopen: 'Reopen',
  animal: (ticket: string) => `Reopen ${ticket}`,
  animalHint:
    'It is back in the shop: its weights can be put right, and it can be handed over again. Its bill and payments stay. What was written before stays to be read.',
  animalDone: (ticket: string) => `${ticket} is open again.`,
  batch: (name: string) => `Reopen batch ${name}`,
  batchHint:
    'Its weights can be put right, and more can be weighed in and packed. Finish it again afterwards.',
  batchDone: (name: string) => `Batch ${name} is open again.`,
  batchClosed: 'Finished: its weights stay as they are. Reopen the batch to put one right.',
  why: 'Why',
  cancel: 'Cancel',
  reopened: (when: string, by: string, reason: string) =>
    `Reopened ${[when, by].filter(Boolean).join(', ')}: ${reason}`,
};
