// @ts-check
// Boxes that have nothing to scroll need no focus.

const settleBoxes = () => {
  const boxes = /** @type {HTMLElement[]} */ (all('.w'));
  const scrolls = boxes.map(
    (one) => one.scrollWidth > one.clientWidth || one.scrollHeight > one.clientHeight,
  );
  boxes.forEach((one, i) => {
    if (scrolls[i]) one.tabIndex = 0;
    else one.removeAttribute('tabindex');
  });
};
settleBoxes();
addEventListener('resize', settleBoxes);

// Colours, paper, data.

const themes = /** @type {HTMLElement[]} */ (all('[data-theme]'));
for (const button of themes) {
  button.addEventListener('click', () => {
    document.documentElement.classList.remove('light', 'dark');
    const theme = button.dataset['theme'] ?? '';
    if (theme !== '') document.documentElement.classList.add(theme);
    for (const one of themes) one.setAttribute('aria-pressed', String(one === button));
  });
}

for (const button of /** @type {HTMLElement[]} */ (all('[data-print]'))) {
  button.addEventListener('click', () => {
    document.documentElement.classList.add(`print-${button.dataset['print']}`);
    print();
  });
}
addEventListener('afterprint', () =>
  document.documentElement.classList.remove('print-all', 'print-worklist'),
);

byId('save')?.addEventListener('click', () => {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([dataText], { type: 'application/json' }));
  link.download = 'keepset-report.json';
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
});
