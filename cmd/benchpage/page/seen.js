// What was seen: every reading with what the curve leaves of it, and everything else.
'use strict';

const seen = (() => {
  const { el, put, button, draw, icon } = dom;
  let opened = 0;

  function show(screen) {
    const { job, state } = bench.at;
    if (!job) return main.go('job');
    const list = el('div', { class: 'list' });
    put(screen, el('div', { class: 'pane seen' },
      el('section', {}, el('h2', { text: job.cylinders.length > 1 ? `Readings of cylinder ${state.cylinder}` : 'Readings' }), list),
      el('section', {}, el('h2', { text: 'Other evidence' }), besides(state), el('div', { class: 'choices' }, forms(job).map(([words, act]) => button(words, act))))));
    return listed(list);
  }

  const besides = (state) => [
    state.seen.length ? el('ul', {}, state.seen.map((text) => el('li', { text }))) : el('p', { class: 'quiet', text: 'No stop, dwell or view yet.' }),
    state.lifts.length ? [el('h3', { text: `Lifts of ${state.lobe}` }), el('ul', {}, state.lifts.map((l) => el('li', { text: `${l.number}: ${l.angle}, ${l.lift}, ${l.turn}` })))] : '',
    state.warnings.length ? el('ul', { class: 'warning' }, state.warnings.map((text) => el('li', { text }))) : ''];

  // listed is the readings, newest first.
  function listed(into) {
    const readings = bench.at.state.readings;
    if (!readings.length) return put(into, el('p', { class: 'quiet', text: 'No readings yet.' }));
    const most = largest(readings.filter((r) => !r.suspect)) || largest(readings); // by one that does not fit no other would be seen
    return put(into, el('ol', { class: 'readings', reversed: true }, readings.map((r) => row(r, most)).reverse()));
  }

  const largest = (readings) => Math.max(0, ...readings.map((r) => Math.abs(r.residual_mm || 0)));

  function row(r, most) {
    const open = r.number === opened;
    const head = button([
      el('span', { class: 'no', text: r.number }), icon(r.turn), el('span', { class: 'angle', text: r.angle }), el('span', { class: 'depth', text: r.depth }),
      el('span', { class: 'left' }, bar(r, most), el('span', { class: 'off', text: r.off })), el('span', { class: 'doubt', text: r.suspect ? '?' : '' }),
    ], () => { opened = open ? 0 : r.number; main.redraw(); }, { id: `r-${r.number}`, class: r.suspect ? 'row suspect' : 'row', 'aria-expanded': String(open), 'aria-label': spoken(r) });
    return el('li', { class: open ? 'open' : '' }, head, open ? el('div', { class: 'more' },
      r.note ? el('p', { class: 'quiet', text: r.note }) : '',
      el('div', { class: 'answers two' }, button('Fix', () => read.fix(r), { class: 'fix' }), button('Strike it out', () => { opened = 0; bench.type(r.strike); }, { class: 'strike' }))) : '');
  }

  const spoken = (r) => `Reading ${r.number}, ${r.angle}, ${r.depth}, turned ${r.turn}${r.off ? `, off by ${r.off}` : ''}${r.suspect ? ', does not fit' : ''}`;

  // bar is how far a reading is off the curve, to one scale for all; one beyond it ends at its end.
  function bar(r, most) {
    if (r.residual_mm === null || !most) return el('span', {});
    const x = Math.max(-1, Math.min(1, r.residual_mm / most)) * 28;
    return draw('svg', { class: 'resid', viewBox: '0 0 64 20', 'aria-hidden': 'true' }, draw('path', { class: 'level', d: 'M32 1v18' }),
      draw('rect', { class: r.suspect ? 'doubtful' : 'bar', x: Math.min(32, 32 + x), y: 6, width: Math.max(1, Math.abs(x)), height: 8 }));
  }

  // forms are ways to type what is no reading, each its words and what they open.
  function forms(job) {
    const angle = (name, label) => ({ name, label, kind: 'angle' });
    const stops = () => ask.form({ title: 'Positive stop', says: 'Where the piston touches it, on either side of the top.', act: 'Keep',
      fields: [angle('rising', 'Rising side'), angle('falling', 'Falling side')], make: (v) => `stop ${v.rising} ${v.falling}` });
    const dwell = () => ask.form({ title: 'Dwell', says: `Where the piston stands still, and where it moves again, turned ${bench.at.state.turn} as on the screen Read.`, act: 'Keep',
      fields: [angle('still', 'Stands still'), angle('moves', 'Moves again')], make: (v) => `dwell ${v.still} ${v.moves}` });
    const view = () => ask.form({ title: 'Equal view', says: `Two angles at which the borescope shows the same, turned ${bench.at.state.turn} as on the screen Read.`, act: 'Keep',
      fields: [angle('before', 'Before'), angle('after', 'After')], make: (v) => `view ${v.before} ${v.after}` });
    const lift = () => ask.form({ title: 'Lift of a cam lobe', act: 'Keep', make: (v) => `lift ${v.lobe}: ${v.angle} ${v.lift}`, fields: [
      { name: 'lobe', label: 'Lobe, such as inlet 1', kind: 'text', value: bench.at.state.lobe || '', options: job.lobes }, angle('angle', 'Angle'), { name: 'lift', label: `Lift, ${job.unit}`, kind: 'length' }] });
    const card = () => ask.form({ title: 'Card of a lobe', act: 'Keep', refill: true, make: (v) => `card ${v.lobe}: ${v.says}`, fields: [
      { name: 'lobe', label: 'Lobe', kind: 'text', value: bench.at.state.lobe || '', options: job.lobes }, { name: 'says', label: `Such as 12 BTDC 48 ABDC at ${job.unit === 'in' ? '.050' : '1.0'} limit 2`, kind: 'text' }] });
    const other = () => ask.form({ title: 'Another cylinder', says: 'Readings from here on are of it.', act: 'Read it', refill: true, make: (v) => `cylinder ${v.number}`, fields: [{ name: 'number', label: 'Its number', kind: 'text' }] });
    const note = () => ask.form({ title: 'A remark', act: 'Keep', make: (v) => `# ${v.text}`, fields: [{ name: 'text', label: 'Such as new pointer', kind: 'text' }] });
    const line = () => ask.form({ title: 'Type a line', says: 'As the command takes it; help lists them.', act: 'Type it', make: (v) => v.text, fields: [{ name: 'text', label: 'Line', kind: 'text' }] });
    const set = () => ask.choose('The protractor was moved on the crank?', ['Readings from here on are a new set: read the piston on both sides and each mark again.'],
      [['No'], ['Yes, a new set', () => bench.type(`set ${bench.at.state.set + 1}`), 'go']]);
    return [['Stop', stops], ['Dwell', dwell], ['Equal view', view], ['Lift of a lobe', lift], ['Card of a lobe', card], ['Another cylinder', other], ['Remark', note], ['Protractor moved', set], ['Type a line', line],
      ...(bench.at.state.lobe ? [['Back to the piston', () => bench.type('piston')]] : [])];
  }

  return { show, list: listed, forms };
})();
