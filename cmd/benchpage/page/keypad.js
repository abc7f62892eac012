// The keypad: digits, what the protractor's scale writes besides, and one key that goes on.
// It types into the field that is active; a keyboard of the desk types there too.
'use strict';

const keypad = (() => {
  const { el, button, icon } = dom;

  // field is a label, what is typed, and a hint that never looks typed.
  function field(name, label, kind) {
    const input = el('input', { id: `f-${name}`, type: 'text', inputmode: 'none', autocomplete: 'off', autocorrect: 'off', spellcheck: 'false', 'aria-describedby': `h-${name}` });
    const hint = el('span', { class: 'hint', id: `h-${name}` });
    const box = el('div', { class: 'field' }, el('label', { for: `f-${name}` }, label), hint, input);
    return { name, kind, input, hint, box, get value() { return input.value.trim(); }, set value(v) { input.value = v; } };
  }

  // make is a keypad over fields. Scale is the protractor's keys; done is called by the last
  // field's key, and last says its words.
  function make({ fields, scale, done, last, changed = () => {}, extra }) {
    let active = fields[0];
    const go = button('', next, { class: 'key go' });
    const sides = scale.filter((k) => k.types !== '-');
    const pad = el('div', { class: sides.length ? 'pad sided' : 'pad', role: 'group', 'aria-label': 'Keypad' });
    const digit = (d, shows, says) => button(shows || d, () => press(d), { class: 'key', 'data-key': d, 'aria-label': says });
    const minus = digit('-', '−', 'minus');
    pad.append(...['7', '8', '9'].map((d) => digit(d)), button(icon('erase'), erase, { class: 'key quiet', 'data-key': 'erase', 'aria-label': 'Erase' }),
      ...['4', '5', '6'].map((d) => digit(d)), extra || el('span'), ...['1', '2', '3'].map((d) => digit(d)), go,
      minus, digit('0'), digit('.', '.', 'point'));
    const sideKeys = sides.map((k, i) => button(k.shows, () => side(k), { class: `key side s${i} of${sides.length}`, 'data-key': k.shows, 'aria-label': k.says }));
    pad.append(...sideKeys);

    function show() {
      for (const f of fields) f.box.classList.toggle('active', f === active);
      const end = fields.indexOf(active) === fields.length - 1;
      const coming = end ? '' : fields[fields.indexOf(active) + 1].box.querySelector('label').textContent.split(',')[0];
      go.textContent = end ? last() : coming.length > 6 ? 'Next' : coming;
      go.classList.toggle('end', end);
      const ofAngle = active.kind === 'angle';
      minus.disabled = ofAngle && sides.length > 0;
      for (const k of sideKeys) k.disabled = !ofAngle;
    }

    function choose(f) {
      active = f;
      show();
    }

    function press(d) {
      active.value += d;
      changed(active);
    }

    // side puts a side behind the number, in the place of one that is there.
    function side(key) {
      active.value = active.value.replace(/\s*[A-Za-z]+$/, '') + key.types;
      changed(active);
    }

    function erase() {
      active.value = /[A-Za-z]$/.test(active.value) ? active.value.replace(/\s*[A-Za-z]+$/, '') : active.value.slice(0, -1);
      changed(active);
    }

    function next() {
      const i = fields.indexOf(active);
      const empty = fields.find((f) => !f.value && !f.free);
      if (i < fields.length - 1) focus(fields[i + 1]);
      else if (empty) focus(empty);
      else done();
    }

    function focus(f) {
      choose(f);
      f.input.focus({ preventScroll: true });
    }

    // letter types a side by its first letter; once more the other one with it.
    function letter(key) {
      const of = sides.filter((k) => k.shows[0] === key.toUpperCase());
      if (active.kind !== 'angle' || !of.length || !active.value) return false;
      const now = of.findIndex((k) => active.value.endsWith(k.shows));
      side(of[(now + 1) % of.length]);
      return true;
    }

    // key takes a key of a keyboard; true where it was one of these.
    function key(e) {
      if (e.ctrlKey || e.metaKey || e.altKey) return false;
      if (e.key === 'Enter') { next(); return true; }
      if (/^[ab]$/i.test(e.key) && letter(e.key)) return true;
      const typing = fields.some((f) => f.input === e.target);
      if (typing) return false;
      if (/^[0-9.,-]$/.test(e.key)) { press(e.key.replace(',', '.')); return true; }
      if (e.key === 'Backspace') { erase(); return true; }
      return false;
    }

    for (const f of fields) {
      f.input.addEventListener('focus', () => choose(f));
      f.input.addEventListener('input', () => changed(f));
      f.box.addEventListener('click', () => focus(f));
    }
    show();
    return { pad, key, show, focus, get active() { return active; }, clear() { fields.forEach((f) => { f.value = ''; }); choose(fields[0]); } };
  }

  return { field, make };
})();
