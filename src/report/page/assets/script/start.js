// @ts-check
// What was chosen before is chosen again.

for (const hidden of all('#tools, .q, .j')) hidden.removeAttribute('hidden');

const restore = () => {
  readHash();
  if (state.sel !== '' && !byId(state.sel)) state.sel = '';
  if (box) box.value = state.q;
  sortRows();
  filterRows();
  markChosen();
  if (state.sel !== '') {
    writeHash();
    goTo(state.sel);
  }
};
addEventListener('hashchange', restore);
restore();
