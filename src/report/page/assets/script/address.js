// @ts-check
// The state of the page, all of it in the part of its address behind the number sign.

/** @type {{ sel: string, q: string, sort: string }} */
const state = { sel: '', q: '', sort: '' };

const readHash = () => {
  const text = location.hash.slice(1);
  const isState = text.includes('=');
  const params = new URLSearchParams(isState ? text : '');
  state.q = isState ? (params.get('q') ?? '') : state.q;
  state.sort = isState ? (params.get('sort') ?? '') : state.sort;
  let bare = text;
  try {
    bare = decodeURIComponent(text);
  } catch {
    // A broken escape is taken as it is.
  }
  state.sel = isState ? (params.get('sel') ?? '') : bare;
};

/** Plain where it can be: such an address leads to its place without this script too. */
const hashOf = () => {
  if (state.q === '' && state.sort === '') return `#${state.sel}`;
  const params = new URLSearchParams();
  for (const key of /** @type {const} */ (['sel', 'q', 'sort'])) {
    if (state[key] !== '') params.set(key, state[key]);
  }
  return `#${params.toString()}`;
};

/** @param {'here' | 'next'} [step] next: the way back leads to where one was */
const writeHash = (step = 'here') => {
  const hash = hashOf();
  if (step === 'next' && hash !== location.hash) history.pushState(null, '', hash);
  else history.replaceState(null, '', hash);
};
