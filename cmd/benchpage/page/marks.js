// The marks: each as a bar on one scale, what they come to, and what to look at next.
'use strict';

const marks = (() => {
  const { el, put, button, draw, sign } = dom;
  const drawing = el('div', { class: 'drawing' });
  let shown = null; // before it is reckoned again
  let of = '';      // the job that it is of

  async function show(screen) {
    if (!bench.at.job) return main.go('job');
    if (of !== bench.at.id) shown = null;
    of = bench.at.id;
    if (shown) lay(screen, shown);
    else put(screen, el('div', { class: 'pane' }, el('p', { class: 'quiet', text: 'Working it out.' })));
    if (!bench.open()) return undefined;
    const r = await bench.ask({ action: 'marks' });
    await hands.lifted();
    if (main.at() !== 'marks') return undefined;
    shown = r.marks || { headline: '', untold: r.error || r.panic, look: [], notes: [], marks: [], measured: [], lobes: [], ticks: [] };
    lay(screen, shown);
    return draws(shown);
  }

  // draws draws what carries what, where a desk has room for it.
  async function draws(m) {
    put(drawing);
    if (!main.wide() || !m.marks.length) return;
    const r = await bench.ask({ action: 'picture', name: 'drive' });
    if (r.picture) put(drawing, dom.picture(r.picture));
  }

  function lay(screen, m) {
    put(screen, el('div', { class: 'pane marks' },
      el('section', { 'aria-label': 'What it comes to' },
        m.untold ? el('p', { class: 'warning', text: m.untold }) : '',
        m.headline ? el('p', { class: 'finding', text: m.headline }) : '',
        m.look.length ? el('ol', { class: 'look' }, m.look.map((text) => el('li', { text }))) : '',
        m.notes.length ? el('ul', { class: 'quiet' }, m.notes.map((text) => el('li', { text }))) : '',
        drawing),
      el('section', { class: 'bars', 'aria-label': 'Marks' },
        m.marks.length ? [scale(m), m.marks.map((one) => card(m, one))] : '',
        m.measured.length ? [el('h3', { text: 'Measured only' }), m.measured.map((one) => card(m, one, true))] : '',
        m.lobes.length ? [el('h3', { text: 'Lobes' }), el('ul', {}, m.lobes.map((l) => el('li', {}, el('strong', { text: l.name }), el('p', { text: l.says || `${l.lifts} lifts` }), button('Read on', () => go(l.line)))))] : '',
        !m.marks.length && !m.measured.length ? el('p', { class: 'quiet', text: m.untold ? 'A mark that was added is kept, and judged later.' : 'No marks yet.' }) : '',
        el('div', { class: 'choices' }, toRead(m), button('Add a mark', add, { id: 'add-mark', class: 'go' }), button('What to look at next', () => bench.type('look')), compares()))));
  }

  // compares are what sets the cylinders beside one another, once more than one is measured.
  function compares() {
    if (bench.at.job.cylinders.filter((c) => c.readings || c.others).length < 2) return [];
    return [button('Compare crowns', crowns, { class: 'crowns' }), button('Compare throws', throws, { class: 'throws' })];
  }

  const crowns = () => ask.form({
    title: 'Crowns compared', act: 'Keep', refill: true, make: (v) => `crowns ${v.limit}`.trim(),
    says: 'Of cylinders that were all read with the gauge set up once. Leave the limit empty where nobody says one.',
    fields: [{ name: 'limit', label: `One may stand off by, ${bench.at.job.unit}`, kind: 'length', free: true }] });

  const throws = () => ask.form({
    title: 'Throws compared', act: 'Keep', refill: true, make: (v) => `throws ${v.limit}`,
    says: 'How far a throw of the crank may be out of its place, in crank degrees.', fields: [{ name: 'limit', label: 'Limit either way, deg', kind: 'length' }] });

  // toRead is the marks that were named when the job was begun and are not read yet.
  const toRead = (m) => (bench.at.toRead?.id === bench.at.id ? bench.at.toRead.marks : []).filter((b) => ![...m.marks, ...m.measured].some((one) => one.name === b.shows))
    .map((b) => button(`Read ${b.shows}`, () => bench.type(b.line), { class: 'to-read' }));

  async function go(line) {
    await bench.type(line);
    main.go('read');
  }

  const wide = 1000; // of the drawing, for its whole scale
  const x = (m, deg) => (deg - m.from_deg) / (m.to_deg - m.from_deg) * wide;

  // scale is the numbers over the bars.
  function scale(m) {
    const row = el('div', { class: 'ticks', 'aria-hidden': 'true' });
    for (const tick of m.ticks) {
      const number = el('span', { text: tick.shows.replace('-', '−') });
      number.style.left = `${x(m, tick.at_deg) / wide * 100}%`;
      row.append(number);
    }
    return el('div', { class: 'scale' }, el('p', { class: 'quiet', text: 'crank degrees, late to the right' }), row);
  }

  function card(m, one, measured) {
    return el('article', { class: `mark ${one.state}` },
      el('h3', {}, sign(one.state), el('span', { text: one.name }), one.on ? el('small', { text: `on ${one.on}` }) : ''),
      measured ? '' : bar(m, one),
      el('p', { class: 'off' }, el('b', { text: one.off || one.read || '' }), one.verdict ? el('span', { class: 'badge', text: one.verdict }) : ''),
      el('p', { class: 'quiet', text: one.says }));
  }

  // bar is what is allowed, the 95 % interval, and the sign of its state.
  function bar(m, one) {
    const mid = x(m, one.at_deg);
    const at = draw('svg', { class: 'markbar', viewBox: `0 0 ${wide} 40`, preserveAspectRatio: 'none', 'aria-hidden': 'true' },
      one.limit_deg ? draw('rect', { class: 'allowed', x: x(m, -one.limit_deg), width: x(m, one.limit_deg) - x(m, -one.limit_deg), y: 2, height: 36 }) : '',
      m.ticks.map((t) => draw('path', { class: 'tick', d: `M${x(m, t.at_deg)} 0v40` })),
      draw('path', { class: 'zero', d: `M${x(m, 0)} 0v40` }),
      draw('rect', { class: 'reach', x: x(m, one.at_deg - one.half_deg), width: Math.max(4, x(m, one.half_deg) - x(m, -one.half_deg)), y: 16, height: 8 }));
    const shape = sign(one.state);
    shape.style.left = `${mid / wide * 100}%`;
    return el('div', { class: 'barbox' }, at, shape);
  }

  const add = () => ask.form({
    title: 'A mark', act: 'Keep', refill: true, says: 'What is left empty is asked for.',
    make: (v) => `mark ${[v.name, v.on, v.read, v.should, v.limit].map((t) => t.replaceAll(';', ',')).join('; ')}`,
    fields: [
      { name: 'name', label: 'Name, such as locking pin hole', kind: 'text' }, { name: 'on', label: 'Sits on, such as flywheel', kind: 'text', free: true },
      { name: 'read', label: 'Reads, such as 6.0 6.5; or off by 4.1 mm late', kind: 'text', free: true },
      { name: 'should', label: 'Should be, deg after TDC, such as 0', kind: 'text', free: true }, { name: 'limit', label: 'Limit either way, deg', kind: 'text', free: true }],
  });

  return { show, compares };
})();
