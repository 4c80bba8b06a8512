import { WHOSE, type ReportView } from './view.ts';

/** The sums come from the shop itself, which adds up what is not voided (`animal_sum_now` of the book). */
export const yieldByAnimal: ReportView = {
  name: 'yield_by_animal',
  about:
    'One row for each animal that a shop took in and did not cancel, finished or not. Weights are in grams, without voided ones; NULL is not weighed, and 0 is a stated none.',
  columns: [
    ...WHOSE,
    ['season', 'Year in which its season began.'],
    ['animal_id', 'Number of the animal in the shop’s own book.'],
    ['ticket', 'Ticket number, such as 26-0147; each shop counts for itself.'],
    ['species', 'Code of the species, such as elk.'],
    ['brought', 'whole, skinned, quarters, primals or boned.'],
    ['sex', 'male, female or unknown.'],
    ['age', 'young, yearling, adult or unknown.'],
    ['detail', 'detailed: every part was weighed; quick: hook and packages only.'],
    ['stage', 'hanging, cutting, packing, ready, released or disposed.'],
    ['received_on', 'Day of intake.'],
    ['ready_on', 'Day on which it became ready for pickup; NULL until then.'],
    ['days', 'Days from intake to ready.'],
    ['damaged', 'Whether shot damage was stated or weighed.'],
    ['cutter', 'Initials of whoever weighed most of its parts and packages.'],
    ['finished', 'Whether it is cut and its hanging or received weight is known. Sums of meat take finished animals only.'],
    ['base_grams', 'The weight that take-home is a share of: hanging weight, or received weight of what came in pieces.'],
    ['hanging_grams', 'Hanging weight.'],
    ['take_home_grams', 'The hunter’s own meat and saved fat; NULL until it is finished.'],
    ['take_home_share', 'Take-home as a fraction of hanging weight, of finished animals that came whole or skinned.'],
    ['whole_cuts_grams', 'Whole cuts, as weighed at the Table.'],
    ['trim_grams', 'Trim, as weighed at the Table.'],
    ['fat_saved_grams', 'Fat saved at the Table.'],
    ['bone_grams', 'Bone.'],
    ['sinew_grams', 'Sinew and silverskin.'],
    ['damage_grams', 'Meat lost to damage.'],
    ['packed_grams', 'Packages of the Table; those of a grind belong to its batch.'],
  ],
  select: `
    SELECT w.shop, n.name, w.season, w.animal_id, a.ticket, w.species, w.brought, w.sex, w.age, w.detail, w.stage,
      ledger.day(w.received_on), ledger.day(w.ready_on), ledger.day(w.ready_on) - ledger.day(w.received_on), w.damaged = 1, w.cutter,
      w.finished = 1, w.base, w.hanging, CASE WHEN w.finished = 1 THEN w.take_home END, w.share, w.whole_cuts, w.trim, w.fat_saved,
      w.bone, w.sinew, w.damage, w.packed
    FROM ledger.animal_sum w JOIN ledger.shop_now n ON n.shop = w.shop
      JOIN ledger.animal a ON a.shop = w.shop AND a.id = w.animal_id`,
}; // prettier-ignore
