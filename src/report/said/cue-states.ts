import type { CheckedCue } from '../../keep/check/check.ts';

/** A checked cue against the cue of the plan. */
export const cueChanges: Readonly<Record<CheckedCue['change'], string>> = {
  same: 'as planned',
  changed: 'changed since the plan',
  new: 'new since the plan',
};

export const cueStates: Readonly<Record<CheckedCue['state'], string>> = {
  read: 'read whole',
  damaged: 'damaged',
  unreadable: 'not readable',
};
