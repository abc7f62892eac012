// The cautions, acknowledged once a sitting before anything else.
'use strict';

const cautions = (() => {
  const { el, put, button } = dom;
  const note = 'evendrop-cautions';

  function read() {
    try { return sessionStorage.getItem(note) === bench.at.program?.version || (!bench.at.program && Boolean(sessionStorage.getItem(note))); } catch { return cautions.done; }
  }

  function agree() {
    cautions.done = true;
    try { sessionStorage.setItem(note, bench.at.program.version); } catch { /* this page remembers it */ }
    main.go();
  }

  const items = (c) => el('ul', { class: 'cautions' }, c.list.map((one) => el('li', {}, el('strong', { text: one.short }), el('p', { text: one.advice }))));

  function show(screen) {
    const c = bench.at.cautions;
    if (!c) return put(screen, el('div', { class: 'pane' }, el('p', { class: 'quiet', text: 'Starting.' })));
    return put(screen, el('div', { class: 'agree' },
      el('div', { class: 'pane', tabindex: 0, role: 'region', 'aria-label': c.title }, el('h2', { text: c.title }), items(c)),
      el('div', { class: 'foot' }, el('p', { text: c.ask }), button('Yes, I will keep to them', agree, { id: 'agree', class: 'go' }))));
  }

  const again = () => ask.show(bench.at.cautions.title, (end) => el('div', { class: 'window' }, el('div', { class: 'words' }, items(bench.at.cautions)),
    el('div', { class: 'answers' }, button('OK', end, { class: 'go' }))));

  return { done: false, read: () => cautions.done || read(), show, again };
})();
