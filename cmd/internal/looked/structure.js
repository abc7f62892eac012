// What must hold of a page for somebody who hears it. Answers a list of {rule, what}.
(() => {
  const faults = [];
  const fault = (rule, what) => faults.push({rule, what});
  const brief = s => (s || '').replace(/[\u2066-\u2069\u00ad\u200b]/g, '').replace(/\s+/g, ' ').trim().slice(0, 48);
  const all = selector => [...document.querySelectorAll(selector)];
  const tag = e => `<${e.localName}${e.id ? ' id=' + e.id : ''}${e.getAttribute('class') ? ' class=' + e.getAttribute('class') : ''}>`;
  const byId = (e, key) => brief((e.getAttribute(key) || '').split(/\s+/).map(id => document.getElementById(id)?.textContent || '').join(' '));
  const child = (e, name) => brief([...e.children].find(c => c.localName === name)?.textContent);
  const name = e => byId(e, 'aria-labelledby') || brief(e.getAttribute('aria-label'));

  if (!document.documentElement.lang) fault('language', 'html has no lang');
  if (!brief(document.title)) fault('title', 'the page has no title');
  if (!document.querySelector('meta[name=viewport]')) fault('viewport', 'no viewport is stated');
  const zoom = document.querySelector('meta[name=viewport]')?.content || '';
  if (/user-scalable\s*=\s*(no|0)|maximum-scale/.test(zoom)) fault('viewport', 'the page cannot be made larger');

  // Headings.
  const headings = all('h1,h2,h3,h4,h5,h6');
  const firsts = headings.filter(h => h.localName === 'h1').length;
  if (firsts !== 1) fault('headings', `${firsts} h1`);
  let last = 0;
  for (const h of headings) {
    const level = +h.localName[1];
    if (level > last + 1) fault('headings', `${h.localName} “${brief(h.textContent)}” comes after ${last ? 'h' + last : 'nothing'}`);
    if (!brief(h.textContent)) fault('headings', `an empty ${h.localName}`);
    last = level;
  }

  // Pictures.
  for (const svg of all('svg').filter(s => !s.parentElement.closest('svg'))) {
    if (svg.getAttribute('aria-hidden') === 'true') {
      if (svg.querySelector('text')) fault('pictures', `${tag(svg)} is hidden from ears and has text`);
      continue;
    }
    if (svg.getAttribute('role') !== 'img') fault('pictures', `${tag(svg)} has no role of img`);
    if (!name(svg) && !child(svg, 'title')) fault('pictures', `${tag(svg)} has no name`);
    if (!byId(svg, 'aria-describedby') && !child(svg, 'desc')) fault('pictures', `${tag(svg)} “${child(svg, 'title')}” has no description`);
  }
  for (const img of all('img')) if (!img.hasAttribute('alt')) fault('pictures', 'an img without alt');

  // Tables. A row's first cell heads it by itself where only data follow, and a cell its column
  // where only heads stand beside it (WHATWG 4.9.12.2).
  const heads = c => c.scope || (c.closest('thead') ? !c.parentElement.querySelector('td') : c.cellIndex === 0 && !c.parentElement.querySelector('th ~ th'));
  for (const table of all('table')) {
    const cells = [...table.querySelectorAll('th')];
    if (!table.querySelector('thead th')) fault('tables', 'a table has no header cells of columns');
    if ([...table.tBodies].some(b => [...b.rows].some(r => ![...r.querySelectorAll('th')].some(heads)))) fault('tables', 'a row has no header cell');
    for (const c of cells) if (!heads(c)) fault('tables', `“${brief(c.textContent)}” has no scope`);
    if (!child(table, 'caption') && !name(table) && !name(table.closest('[role=region]') || table)) fault('tables', 'a table has no name');
  }

  // What is named, and names that lead nowhere.
  for (const e of all('a[href],button,summary,[role=button],[role=link]')) if (!name(e) && !brief(e.textContent)) fault('names', `${tag(e)} has no name`);
  for (const e of all('input,select,textarea')) if (!name(e) && !e.labels?.length) fault('names', `${tag(e)} has no label`);
  for (const e of all('[tabindex]')) if (!name(e) || !e.hasAttribute('role')) fault('names', `${tag(e)} can be reached by the keyboard and has no role and name`);
  for (const e of all('[role=region],nav')) if (!name(e)) fault('names', `${tag(e)} has no name`);
  for (const key of ['aria-labelledby', 'aria-describedby', 'for'])
    for (const e of all(`[${key}]`)) for (const id of e.getAttribute(key).split(/\s+/)) if (!document.getElementById(id)) fault('names', `${tag(e)} is named by ${id}, which is not there`);
  for (const a of all('a[href^="#"]')) if (!document.getElementById(a.getAttribute('href').slice(1))) fault('names', `a link to ${a.getAttribute('href')}, which is not there`);
  const ids = all('[id]').map(e => e.id);
  for (const id of new Set(ids.filter((id, i) => ids.indexOf(id) !== i))) fault('ids', `${id} stands twice`);

  // Landmarks: one main, and nothing said outside of them all.
  if (all('main,[role=main]').length !== 1) fault('landmarks', `${all('main,[role=main]').length} main`);
  const inSection = e => e.parentElement.closest('article,aside,main,nav,section');
  const landmark = e => /^(main|nav|aside)$/.test(e.localName) || /^(main|navigation|complementary|region|banner|contentinfo)$/.test(e.getAttribute('role') || '') ||
    e.localName === 'section' && name(e) || /^(header|footer)$/.test(e.localName) && !inSection(e);
  const outside = new Set();
  const texts = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node; node = walker.nextNode();) {
    const e = node.parentElement;
    if (!brief(node.data) || e.closest('script,style,title,desc') || !e.checkVisibility()) continue;
    texts.push(node);
    let up = e;
    while (up !== document.body && !landmark(up)) up = up.parentElement;
    if (up === document.body) { let top = e; while (top.parentElement !== document.body) top = top.parentElement; outside.add(tag(top)); }
  }
  for (const top of outside) fault('landmarks', `${top} has text in no landmark`);

  // The finding, which is the heading of the sheet, comes first, but for what a header says.
  const finding = document.querySelector('.sheet h1');
  if (!finding) fault('first', 'there is no h1 in a sheet');
  else for (const node of texts) {
    if (finding.contains(node)) break;
    if (!node.parentElement.closest('header')) { fault('first', `“${brief(node.data)}” comes before the finding`); break; }
  }
  return faults;
})
