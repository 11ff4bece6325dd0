/** The invented bikes: four of a rider's own, a dozen loaners of a ride group by a canal. */
import { tagCode } from '../tag-code.js';

/** @typedef {import('./bike.js').Spec} Spec */
/** @typedef {Spec & {weekly: number, months?: number[]}} Kind `weekly`: km; `months` it is ridden in, 0 is January */

const WINTER = [9, 10, 11, 0, 1, 2];

/** @param {(key: string) => string} say the demo's words @param {Record<'rule'|'caliper'|'gauge', string>} ids of the instruments @returns {Kind[]} */
export function ownBikes(say, ids) {
  const caliper = /** @type {const} */ ({ instrument: 'caliper', instrument_id: ids.caliper });
  const rule = /** @type {const} */ ({ instrument: 'rule', instrument_id: ids.rule });
  return [
    {
      fields: {
        ...{ name: say('own.1'), drive: 'derailleur', rear_sprockets: 11, chainrings: [50, 34] },
        ...{ sprockets: [11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28], chainstay_mm: 410, etrto: '28-622' },
        ...{ derailleur: { max_sprocket: 30, capacity_teeth: 35 }, care: 'clean', km_per_week: 110 },
      },
      chain: { class: 'derailleur_11', pitches: 110, closure: 'one_use_joining_link' },
      ...{ lubricant: 'oil', weekly: 110, slow: true, ...caliper },
    },
    {
      fields: {
        ...{ name: say('own.2'), drive: 'derailleur', rear_sprockets: 12, chainrings: [40] },
        ...{ sprockets: [10, 12, 14, 16, 18, 21, 24, 28, 32, 36, 40, 44], chainstay_mm: 430, etrto: '40-622' },
        ...{ derailleur: { max_sprocket: 44, capacity_teeth: 34 }, care: 'gritty', km_per_week: 45 },
      },
      chain: { class: 'derailleur_12', pitches: 114, closure: 'reusable_joining_link' },
      ...{ lubricant: 'hot_wax', weekly: 45, chains: 2, ...caliper },
    },
    {
      fields: {
        ...{ name: say('own.3'), drive: 'hub', chainrings: [38], sprockets: [19], chainstay_mm: 455 },
        ...{ adjust_mm: [0, 12], etrto: '42-622', care: 'enclosed', km_per_week: 30, bears: ['child_seat'] },
      },
      chain: { class: 'single_1_8', pitches: 104, closure: 'spring_clip_joining_link' },
      ...{ lubricant: 'oil', weekly: 30, ...rule },
    },
    {
      fields: {
        ...{ name: say('own.4'), drive: 'single', chainrings: [44], sprockets: [17], chainstay_mm: 415 },
        ...{ adjust_mm: [-4, 10], etrto: '35-622', care: 'usual', km_per_week: 50 },
      },
      chain: { class: 'single_3_32', pitches: 98, closure: 'spring_clip_joining_link' },
      ...{ lubricant: 'oil', weekly: 50, months: WINTER, ...rule },
    },
  ];
}

/** Drives the loaners come with. */
const DRIVES = [
  { drive: 'derailleur', rear_sprockets: 8, chainrings: [48, 38, 28], sprockets: [11, 13, 15, 18, 21, 24, 28, 32] },
  { drive: 'derailleur', rear_sprockets: 7, chainrings: [42, 34, 24], sprockets: [14, 16, 18, 20, 22, 24, 28] },
  { drive: 'hub', chainrings: [38], sprockets: [18], adjust_mm: [0, 15] },
];

const CHAINS = [
  { class: 'derailleur_7_8', pitches: 114, closure: 'reusable_joining_link' },
  { class: 'derailleur_7_8', pitches: 112, closure: 'reusable_joining_link' },
  { class: 'single_1_8', pitches: 102, closure: 'spring_clip_joining_link' },
];

const LOANERS = 12;

/** @param {(key: string) => string} say @param {Record<'rule'|'caliper'|'gauge', string>} ids @returns {Kind[]} */
export function loaners(say, ids) {
  return Array.from({ length: LOANERS }, (_, i) => {
    const kind = i % 4 === 3 ? 2 : i % 2;
    const gauge = i % 3 === 0;
    return {
      fields: {
        ...{ name: say(`loaner.${i + 1}`), set: say('set'), tag: tagCode(i), care: 'usual' },
        ...DRIVES[kind],
        ...{ chainstay_mm: 440 + 2 * (i % 5), etrto: '37-622', km_per_week: 60 },
        ...(i === 6 ? { bears: ['load'] } : {}),
      },
      chain: CHAINS[kind],
      ...{ lubricant: 'oil', weekly: 55 + 6 * (i % 4), months: [3, 4, 5, 6, 7, 8, 9] },
      instrument: gauge ? 'gauge' : 'rule',
      instrument_id: gauge ? ids.gauge : ids.rule,
    };
  });
}
