// The customer's sheet, a page of its own in a frame that runs nothing.
'use strict';

const sheet = (() => {
  const { el, put, button } = dom;
  let page = '';

  async function show(screen) {
    if (!bench.at.job) return main.go('job');
    if (!bench.open()) return put(screen, el('div', { class: 'pane' }, el('p', { class: 'quiet', text: 'Starting.' })));
    put(screen, el('div', { class: 'pane' }, el('p', { class: 'quiet', text: 'Working it out.' })));
    const r = await bench.ask({ action: 'sheet' });
    await hands.lifted();
    if (main.at() !== 'sheet') return undefined;
    if (!r.page) return put(screen, el('div', { class: 'pane' }, el('p', { class: 'warning', text: r.error || r.panic })));
    page = r.page;
    const frame = el('iframe', { id: 'sheet', title: 'The sheet for the customer', sandbox: 'allow-same-origin allow-modals', srcdoc: page });
    return put(screen, el('div', { class: 'sheet' }, frame, el('div', { class: 'foot row' },
      button('Print', () => frame.contentWindow.print(), { id: 'print' }),
      button('Save', () => filed.give(`${filed.named(bench.at.job.title)}.html`, 'text/html', page), { id: 'save' }),
      button('Customer', () => bench.type('sheet'), { id: 'customer' }),
      button('Photo', () => filed.pick(photo), { id: 'photo' }))));
  }

  // photo puts one into the job's folder, and asks what it shows.
  async function photo([file]) {
    if (!file) return undefined;
    const [, base, ending] = /^(.*?)(\.\w+)?$/.exec(file.name);
    const name = filed.named(base) + (ending || '').toLowerCase();
    const wrong = await bench.attach([{ ...await filed.over(file), name }]);
    if (wrong) return ask.said('It was not taken', [{ kind: 'remark', parts: [wrong] }]);
    return ask.form({ title: 'A photo', act: 'Keep', make: (v) => `photo ${name} ${v.shows}`, fields: [{ name: 'shows', label: 'What it shows, such as the pin beside its hole', kind: 'text' }] });
  }

  return { show };
})();
