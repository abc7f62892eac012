// The customer's sheet, a page of its own in a frame that runs nothing.
'use strict';

const sheet = (() => {
  const { el, put, button } = dom;
  let page = '';

  async function show(screen) {
    if (!bench.at.job) return main.go('job');
    if (!bench.open()) return put(screen, el('div', { class: 'pane' }, el('p', { class: 'quiet', text: 'Starting.' })));
    put(screen, el('div', { class: 'pane' }, el('p', { class: 'quiet', text: 'Reckoning.' })));
    const r = await bench.ask({ action: 'sheet' });
    if (main.at() !== 'sheet') return undefined;
    if (!r.page) return put(screen, el('div', { class: 'pane' }, el('p', { class: 'warning', text: r.error || r.panic })));
    page = r.page;
    const frame = el('iframe', { id: 'sheet', title: 'The sheet for the customer', sandbox: 'allow-same-origin allow-modals', srcdoc: page });
    return put(screen, el('div', { class: 'sheet' }, frame, el('div', { class: 'foot row' },
      button('Print', () => frame.contentWindow.print(), { id: 'print' }),
      button('Save or share', () => filed.give(`${filed.named(bench.at.job.title)}.html`, 'text/html', page), { id: 'save' }))));
  }

  return { show };
})();
