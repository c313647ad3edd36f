/**
 * Spellings of one opcode (the open SFZ documentation, opcode pages, "alias"; the older names without
 * a low line come from the first players of the format).
 */
const same: Readonly<Record<string, string>> = {
  curve: 'curve_index',
  loopcount: 'loop_count',
  loopend: 'loop_end',
  loopmode: 'loop_mode',
  loopstart: 'loop_start',
  looptune: 'loop_tune',
  looptype: 'loop_type',
  offby: 'off_by',
  offmode: 'off_mode',
  polyphony_group: 'group',
};

/** The same for opcodes of a controller: what stands before `cc` and its number. */
const sameBefore: Readonly<Record<string, string>> = {
  set_real: 'set_hd',
  loreal: 'lohd',
  hireal: 'hihd',
  start_lo: 'on_lo',
  start_hi: 'on_hi',
  start_lohd: 'on_lohd',
  start_hihd: 'on_hihd',
  start_loreal: 'on_lohd',
  start_hireal: 'on_hihd',
  on_loreal: 'on_lohd',
  on_hireal: 'on_hihd',
  gain_: 'volume_on',
  gain_on: 'volume_on',
  gain_curve: 'volume_curve',
  gain_smooth: 'volume_smooth',
  gain_step: 'volume_step',
  loopstart: 'loop_start_on',
  loop_start: 'loop_start_on',
  looplength: 'loop_length_on',
  loop_length: 'loop_length_on',
};

/** What a controller is given or called, which has no form with `on`. */
const own = new Set(['set_', 'label_']);

/** `ampeg_releaseccN` and its like, which the first version of the format wrote without a low line. */
const envelope =
  /^(?:ampeg|fileg|pitcheg|amplfo|fillfo|pitchlfo)_(?!.*(?:_on|curve|smooth|step)$)/u;

/** A point of a velocity curve, whose number may have zeros in front. */
const velocityPoint = /^amp_velcurve_0*(\d{1,9})$/u;

const withController = /^(.*?)cc0*(\d{1,9})$/u;

const before = (stem: string): string => {
  const other = Object.hasOwn(sameBefore, stem) ? sameBefore[stem] : undefined;
  if (other !== undefined) return other;
  if (stem.endsWith('_')) return own.has(stem) ? stem : `${stem}on`;
  return envelope.test(stem) ? `${stem}_on` : stem;
};

/**
 * The one spelling of an opcode's name. Names that are not known stay as they are, in lower case, but
 * that `X_ccN` always becomes `X_onccN`, and a controller's number loses zeros in front.
 *
 * @param name letters, figures and low lines
 * @example canonicalName('loopmode') // 'loop_mode'
 * @example canonicalName('Gain_cc07') // 'volume_oncc7'
 */
export const canonicalName = (name: string): string => {
  const lower = name.toLowerCase();
  const other = Object.hasOwn(same, lower) ? same[lower] : undefined;
  if (other !== undefined) return other;
  const point = velocityPoint.exec(lower)?.[1];
  if (point !== undefined) return `amp_velcurve_${point}`;
  const [, stem, number] = withController.exec(lower) ?? [];
  return stem === undefined || number === undefined ? lower : `${before(stem)}cc${number}`;
};
