/** What holds whatever a report says. */
export const caution =
  'Keep your full template. Figures are estimates: compare them with what your players show, and check before anything is deleted.';
