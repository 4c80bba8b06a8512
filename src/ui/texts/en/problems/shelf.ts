/** Messages about the shop's species, products and templates. */
import { massIn, type Wording } from '../../wording.ts';

export const shelfWording: Readonly<Record<string, Wording>> = {
  'choice.product': () => 'Pick what kind of product it is.',
  'species.taken': (p) => `There is a species called ${p.name} already, perhaps archived. Pick another name.`,
  'species.like': () =>
    'Pick the species that it is most like. Its figures hold until you have weighed some.',
  'species.weights': (p, format) =>
    `Those weights cannot be: least ${massIn(p, 'least', format)}, mostly ${massIn(p, 'typical', format)}, most ${massIn(p, 'most', format)}. They must rise, and begin at ${format.mass(1500)} or more.`,
  'species.no-primals': () => 'Name at least one piece that it is broken down into.',
  'species.too-many': (p) =>
    `There are ${p.count} kinds of game in the list already, and no more fit. Change one that you do not use.`,
  'product.too-many': (p) =>
    `There are ${p.count} products in the list already, and no more fit. Change one that you do not make any more.`,
  'template.too-many': (p) =>
    `There are ${p.count} sets of cutting instructions already, and no more fit. Change one that you do not use.`,
  'species.too-many-primals': (p) => `An animal has at most ${p.most} pieces here. Leave some out.`,
  'species.primal-share': (p) =>
    `How much of the carcass is ${p.primal}? Type a percentage above 0; a guess will do.`,
  'species.primal-twice': (p) => `Two pieces are called ${p.primal}. Give each a name of its own.`,
  'species.primal-used': (p) =>
    `Animals in the book were weighed or ordered by ${p.primal}, so this piece stays. It may be renamed.`,
  'species.supplied-primals': (p) =>
    `The pieces of ${p.name} came with Gambrel: they may be renamed, not added or left out. Make a species of your own for that.`,
  'species.last': () => 'This is the last species on offer. Bring another one back first.',
  'product.taken': (p) => `There is a product called ${p.name} already. Pick another name.`,
  'product.unknown': () => 'This product is not in the book.',
  'product.fat': () => 'A fat percentage needs a fat. Pick which one, or leave the percentage empty.',
  'template.taken': (p) =>
    `There is a way to cut called ${p.name} for this carcass already. Pick another name.`,
  'template.unknown': () => 'This way to cut is not in the book.',
  'template.carcass': () => 'Pick the carcass that it is for: orders for single pieces need one.',
};
