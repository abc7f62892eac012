// Windows that ask: what was said, a form that makes a line, yes or no.
'use strict';

const ask = (() => {
  const { el, put, button, paragraphs } = dom;
  let open = null; // the dialog that is there
  let unsaid = []; // what is said once it is closed
  let tap = {}; // the last click
  document.addEventListener('click', (e) => { tap = e; }, true);

  // show puts a dialog up; what it holds is made with a way to close it.
  function show(title, body, { closed } = {}) {
    close();
    const box = el('dialog', { class: 'ask', 'aria-labelledby': 'ask-title' });
    open = box;
    const by = tap;
    // the second tap of a double one presses nothing that was not read
    box.addEventListener('click', (e) => { if (e.detail && e.timeStamp - by.timeStamp < 600 && Math.hypot(e.clientX - by.clientX, e.clientY - by.clientY) < 60) e.stopPropagation(); }, true);
    const inner = body(close);
    box.append(el('h2', { id: 'ask-title', text: title, tabindex: -1 }), inner);
    box.addEventListener('close', () => {
      box.remove();
      if (open === box) open = null;
      if (closed) closed();
      if (!open && unsaid.length) said(...unsaid.shift());
    });
    document.body.append(box);
    box.showModal();
    return box;
  }

  function close() {
    const box = open;
    open = null;
    if (box) box.close();
  }

  // said shows what was said, paragraph by paragraph, lines as they are.
  const saidNodes = (list) => list.map((s) => (s.kind === 'lines'
    ? dom.lines(s.parts.join('\n'))
    : paragraphs(s.parts, { class: s.kind })));

  // What comes while somebody answers another window waits until that is closed: what was typed
  // into it is not lost.
  function said(title, list) {
    if (hands.waits(() => said(title, list))) return;
    if (open) {
      unsaid.push([title, list]);
      return;
    }
    show(title, (end) => el('div', { class: 'window' }, el('div', { class: 'words' }, saidNodes(list)),
      el('div', { class: 'answers' }, button('OK', end, { class: 'go', autofocus: true }))));
  }

  // choose asks for one of a few answers; each is [words, what to do].
  const choose = (title, texts, answers) => show(title, (end) => el('div', { class: 'window' }, el('div', { class: 'words' }, paragraphs(texts)),
    el('div', { class: 'answers' }, answers.map(([words, act, kind]) => button(words, () => { end(); if (act) act(); }, { class: kind || '' })))));

  // form asks for a few things and types the line that make makes of them.
  function form({ title, says, fields, make, act, refill, again = {} }) {
    let pad;
    const scale = bench.at.job.scale.keys;
    const list = fields.map((f) => (f.kind === 'text' || f.options ? words(again[f.name] ? { ...f, value: again[f.name] } : f) : Object.assign(keypad.field(f.name, f.label, f.kind), { free: f.free })));
    const typed = list.filter((f) => f.kind !== 'text');
    const done = async () => {
      const values = Object.fromEntries(list.map((f) => [f.name, f.value]));
      const missing = list.find((f) => !f.value && !f.free);
      if (missing) return missing.input.focus();
      close();
      const { kept } = await bench.type(make(values));
      const { asks, question } = bench.at.state || {};
      if (!refill || kept || asks || question) return undefined;
      return form({ title, says: bench.at.said.flatMap((s) => s.parts).join(' '), fields, make, act, refill, again: values }); // what was typed is not lost
    };
    const box = show(title, (end) => {
      const body = el('div', { class: 'window form' }, el('div', { class: 'words' }, paragraphs(says ? [says] : []), list.filter((f) => f.kind === 'text').map((f) => f.box)));
      if (typed.length) {
        pad = keypad.make({ fields: typed, scale, done, last: () => act });
        body.append(el('div', { class: 'fields' }, typed.map((f) => f.box)), pad.pad);
        body.append(el('div', { class: 'answers' }, button('Leave it', end)));
      } else {
        body.append(el('div', { class: 'answers' }, button('Leave it', end), button(act, done, { class: 'go' })));
      }
      return body;
    });
    box.addEventListener('keydown', (e) => {
      if (e.target.tagName === 'BUTTON') return;
      if (pad && typed.some((f) => f.input === e.target) && pad.key(e)) e.preventDefault();
      else if (e.key === 'Enter') {
        e.preventDefault();
        if (pad) pad.focus(typed[0]); else done();
      }
    });
    list[0].input.focus();
    return box;
  }

  // words is a field for words, with the usual keyboard.
  function words({ name, label, free, options = [], value = '' }) {
    const input = el('input', { id: `w-${name}`, type: 'text', autocomplete: 'off', list: options.length ? `l-${name}` : undefined });
    input.value = value;
    input.addEventListener('focus', () => input.select()); // what is there already is typed over
    const box = el('div', { class: 'field text' }, el('label', { for: `w-${name}`, text: label }), input,
      options.length ? el('datalist', { id: `l-${name}` }, options.map((o) => el('option', { value: o }))) : '');
    return { name, kind: 'text', free, input, box, get value() { return input.value.trim(); } };
  }

  // asked puts the core's question about a mark or a cylinder, until none is left, under what was
  // said beside it: a caution, or why an answer was not taken.
  function asked(asks) {
    const beside = bench.at.said.filter((s) => s.kind === 'remark').flatMap((s) => s.parts).filter((text) => !text.startsWith(asks.text));
    const input = el('input', { id: 'asked', type: 'text', autocomplete: 'off', 'aria-label': 'Answer' });
    const answer = (line) => { close(); bench.type(line); };
    const box = show({ mark: 'A mark', cylinder: 'A cylinder', sheet: 'The sheet', lift: 'The cams', card: 'The cams', drive: 'The cams' }[asks.of] || 'A question', () => el('div', { class: 'window' },
      el('div', { class: 'words' }, paragraphs(beside), el('p', { text: asks.text }), el('div', { class: 'field text' }, input)),
      el('div', { class: 'answers' },
        asks.usual ? button(asks.usual, () => answer(''), { class: 'usual' }) : '',
        button('Leave it out', () => answer(asks.leave)),
        button('Answer', () => answer(input.value), { class: 'go' }))));
    box.addEventListener('cancel', (e) => { e.preventDefault(); answer(asks.leave); });
    input.addEventListener('keydown', (e) => { if (e.key === 'Enter') { e.preventDefault(); answer(input.value); } });
    input.focus();
  }

  return { show, said, saidNodes, choose, form, asked, close, put, get open() { return Boolean(open); } };
})();
