/** The invented hunters of the day, with what they bring and pay at drop-off. */
import { PAID } from './figures.ts';

export interface Guest {
  name: string;
  phone: string;
  /** For a returning hunter: the text that finds them. */
  find?: string;
  species: 'Mule deer' | 'Elk';
  sex: 'Buck' | 'Doe' | 'Bull';
  brought: 'Hide on' | 'Skinned' | 'Quarters' | 'Boneless';
  /** The count of each piece. */
  pieces?: Readonly<Record<string, string>>;
  received: string;
  tag: string;
  /** At drop-off, with the letter of the payment method. */
  deposit?: { cents: number; key: 'c' | 'h' | 'a' };
  /** At the Table, saved through the desk: hanging weight, trim, and packages of whole cuts. */
  hanging?: string;
  trim?: string;
  cuts: { count: number; typed: string };
}

const phone = (last: number): string => `307-555-01${String(last).padStart(2, '0')}`;
const deer = (
  name: string,
  last: number,
  more: Partial<Guest> & Pick<Guest, 'received' | 'cuts'>,
): Guest => ({
  name,
  phone: phone(last),
  species: 'Mule deer',
  sex: 'Buck',
  brought: 'Skinned',
  tag: `MD-${last}`,
  ...more,
});

export const GUESTS = {
  bea: deer('Bea Bond', 12, { sex: 'Doe', received: '76.2', hanging: '74.0', trim: '18.00', cuts: { count: 18, typed: '27.00' }, deposit: { cents: PAID.beaDeposit, key: 'h' } }),
  al: deer('Al Ames', 11, { find: '0111', received: '82.4', hanging: '80.0', trim: '12.00', cuts: { count: 24, typed: '36.00' }, deposit: { cents: PAID.alDeposit, key: 'c' } }),
  cal: deer('Cal Cook', 13, { received: '71.8', hanging: '70.0', trim: '10.00', cuts: { count: 22, typed: '33.00' }, deposit: { cents: PAID.calDeposit, key: 'c' } }),
  dee: deer('Dee Dunn', 14, { sex: 'Doe', received: '88.0', hanging: '86.0', trim: '20.00', cuts: { count: 20, typed: '30.00' } }),
  eli: { name: 'Eli Eads', phone: phone(15), species: 'Elk', sex: 'Bull', brought: 'Skinned', tag: 'EL-15', received: '304.0', hanging: '300.0', cuts: { count: 90, typed: '180.00' }, deposit: { cents: PAID.eliDeposit, key: 'h' } },
  flo: deer('Flo Fitch', 16, { brought: 'Hide on', received: '120.0', hanging: '84.0', trim: '15.00', cuts: { count: 20, typed: '30.00' } }),
  hal: deer('Hal Hart', 17, { brought: 'Quarters', pieces: { 'Hind leg': '1', Shoulder: '0' }, received: '24.6', cuts: { count: 12, typed: '17.00' } }),
  ida: deer('Ida Ives', 18, { sex: 'Doe', brought: 'Boneless', pieces: { Shoulder: '1' }, received: '11.3', cuts: { count: 8, typed: '10.50' } }),
  jon: deer('Jon Judd', 19, { sex: 'Doe', received: '66.0', hanging: '64.0', cuts: { count: 26, typed: '31.50' } }),
  kay: deer('Kay Kerr', 20, { brought: 'Hide on', received: '131.0', hanging: '92.0', trim: '30.00', cuts: { count: 16, typed: '24.00' }, deposit: { cents: PAID.kayDeposit, key: 'c' } }),
  lou: deer('Lou Lane', 21, { received: '79.5', hanging: '78.0', trim: '20.00', cuts: { count: 19, typed: '28.50' } }),
  max: deer('Max Moss', 22, { received: '73.3', hanging: '72.0', trim: '13.70', cuts: { count: 21, typed: '31.50' }, deposit: { cents: PAID.maxDeposit, key: 'h' } }),
} satisfies Record<string, Guest>; // prettier-ignore
export type Who = keyof typeof GUESTS;
export const EVERYBODY = Object.keys(GUESTS) as Who[];
/** The second hunter of Flo's deer, known only as its sharer. */
export const GUS = { name: 'Gus Gale', phone: phone(26) } as const;
