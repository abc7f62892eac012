// What must hold of a page as it is shown, width its screen's in CSS pixels, smallest what
// letters of a picture may be. Answers a list of {rule, what}.
((width, smallest) => {
  const faults = [];
  const fault = (rule, what) => faults.push({rule, what});
  const brief = s => s.replace(/[\u2066-\u2069\u00ad\u200b]/g, '').replace(/\s+/g, ' ').trim().slice(0, 48);
  // every shape and letter can be hit, nothing glides, and no style sheet of the page minds
  const plain = new CSSStyleSheet();
  plain.replaceSync('*{pointer-events:auto!important;scroll-behavior:auto!important;transition:none!important;animation:none!important}');
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, plain];
  scrollTo(0, 0);

  // shown are the texts that somebody sees, each with what it needs to be found again.
  const shown = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node; node = walker.nextNode();) {
    const element = node.parentElement;
    if (!brief(node.data) || element.closest('script,style,title,desc,template')) continue;
    const style = getComputedStyle(element);
    if (style.visibility !== 'visible') continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const rects = () => [...range.getClientRects()].filter(r => r.width > 0 && r.height > 0);
    if (rects().length) shown.push({node, element, style, rects, svg: element.closest('svg'), says: brief(node.data)});
  }

  // Sideways.
  const sideways = document.scrollingElement.scrollWidth > width;
  if (sideways) {
    const widest = shown.map(t => [Math.max(...t.rects().map(r => r.right)), t.says]).sort((a, b) => b[0] - a[0])[0];
    fault('sideways', `the page is ${document.scrollingElement.scrollWidth} px wide on ${width}; farthest right is “${widest[1]}”`);
  }

  // Letters of pictures: which of a text's have a place of their own, and where one is on the
  // screen: what part of its width along, and how high above its line, in sizes of the letter.
  const letters = e => [...Array(e.getNumberOfChars()).keys()].filter(i => {
    const from = e.getStartPositionOfChar(i), to = e.getEndPositionOfChar(i);
    return Math.hypot(to.x - from.x, to.y - from.y) > 1 && e.textContent[i]?.trim() !== '';
  });
  const middle = (t, i, part = 0.5, high = 1 / 3) => {
    const e = t.element, n = t.letters[i], from = e.getStartPositionOfChar(n), to = e.getEndPositionOfChar(n);
    const turned = e.getRotationOfChar(n) * Math.PI / 180, up = parseFloat(t.style.fontSize) * high;
    const at = new DOMPoint(from.x + part * (to.x - from.x) + up * Math.sin(turned), from.y + part * (to.y - from.y) - up * Math.cos(turned)).matrixTransform(e.getScreenCTM());
    return [at.x, at.y];
  };
  for (const t of shown) if (t.svg && t.element.getNumberOfChars) {
    const list = letters(t.element);
    if (list.length) t.letters = list;
  }

  const scaleOf = t => { const m = t.element.getScreenCTM && t.element.getScreenCTM(); return m ? Math.sqrt(Math.abs(m.a * m.d - m.b * m.c)) : 1; };
  const small = new Map(); // by picture
  for (const t of shown) {
    t.size = parseFloat(t.style.fontSize) * (t.svg ? scaleOf(t) : 1);
    if (t.svg && t.size < smallest - 0.005) small.set(t.svg, [...(small.get(t.svg) || []), t]);
  }
  for (const [svg, list] of small) {
    const least = list.reduce((a, b) => b.size < a.size ? b : a);
    fault('small letters', `${list.length} in “${brief(svg.querySelector('title')?.textContent || '')}”, the smallest “${least.says}” at ${least.size.toFixed(1)} px`);
  }

  // Texts over one another: the middles of their boxes, a fifth left away all round, since a
  // box is higher than its letters.
  const scroller = e => { for (; e; e = e.parentElement) if (e.scrollWidth > e.clientWidth && /auto|scroll/.test(getComputedStyle(e).overflowX)) return e; };
  const boxes = t => !t.letters ? t.rects() : t.letters.map((_, i) => {
    const [x, y] = middle(t, i), half = t.size * 0.35; // with what is cut away, half a letter high
    return {left: x - half, right: x + half, top: y - half, bottom: y + half, width: 2 * half, height: 2 * half};
  });
  const cores = [];
  for (const t of shown) {
    t.scroller = scroller(t.element);
    const within = t.scroller && t.scroller.getBoundingClientRect();
    for (const r of boxes(t)) {
      const cut = 0.2 * Math.min(r.width, r.height);
      if (!within || r.right <= within.right) cores.push({t, left: r.left + cut, right: r.right - cut, top: r.top + cut, bottom: r.bottom - cut});
    }
  }
  cores.sort((a, b) => a.top - b.top);
  for (let i = 0; i < cores.length; i++)
    for (let k = i + 1; k < cores.length && cores[k].top < cores[i].bottom; k++)
      if (cores[k].t !== cores[i].t && cores[k].left < cores[i].right && cores[i].left < cores[k].right)
        fault('overlap', `“${cores[i].t.says}” and “${cores[k].t.says}”`);

  // Colours.
  const canvas = document.createElement('canvas').getContext('2d', {willReadFrequently: true});
  const read = new Map();
  const rgba = name => {
    if (!read.has(name)) {
      canvas.clearRect(0, 0, 1, 1);
      canvas.fillStyle = name;
      canvas.fillRect(0, 0, 1, 1);
      const [r, g, b, a] = canvas.getImageData(0, 0, 1, 1).data;
      read.set(name, [r, g, b, a / 255]);
    }
    return read.get(name);
  };
  const over = (top, below) => [0, 1, 2].map(i => top[i] * top[3] + below[i] * (1 - top[3])).concat(1);
  const thinned = (c, part) => [c[0], c[1], c[2], c[3] * part];
  const opacities = new Map();
  const opacity = e => {
    if (!e) return 1;
    if (!opacities.has(e)) opacities.set(e, opacity(e.parentElement) * parseFloat(getComputedStyle(e).opacity));
    return opacities.get(e);
  };
  const luminance = c => { const [r, g, b] = c.map(x => x / 255).map(x => x <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
  const contrast = (a, b) => { const [x, y] = [luminance(a), luminance(b)].sort((p, q) => q - p); return (x + 0.05) / (y + 0.05); };
  const probe = document.createElement('div');
  probe.style.background = 'Canvas';
  document.body.append(probe);
  const ground = rgba(getComputedStyle(probe).backgroundColor);
  probe.remove();
  // paint is what an element lays under a point.
  const paint = (e, x, y) => {
    const s = getComputedStyle(e);
    if (!(e instanceof SVGElement) || e.ownerSVGElement === null) return thinned(rgba(s.backgroundColor), opacity(e));
    if (!(e instanceof SVGGeometryElement)) return [0, 0, 0, 0];
    const at = new DOMPoint(x, y).matrixTransform(e.getScreenCTM().inverse());
    const inside = s.fill !== 'none' && e.isPointInFill(at);
    const ink = inside ? s.fill : s.stroke;
    return ink === 'none' ? [0, 0, 0, 0] : thinned(rgba(ink), opacity(e) * parseFloat(inside ? s.fillOpacity : s.strokeOpacity));
  };
  const judged = (t, stack, x, y) => {
    const from = stack.findIndex(e => e === t.element || e.contains(t.element));
    const below = stack.slice(Math.max(0, from)).reverse().reduce((c, e) => over(paint(e, x, y), c), ground);
    const ink = t.svg ? thinned(rgba(t.style.fill), parseFloat(t.style.fillOpacity)) : rgba(t.style.color);
    const ratio = contrast(over(thinned(ink, opacity(t.element)), below), below);
    const large = t.size >= 24 || t.size >= 18.66 && parseInt(t.style.fontWeight) >= 700;
    if (ratio < (large ? 3 : 4.5)) return `“${t.says}” has ${ratio.toFixed(2)} to 1`;
  };

  // What lies on top where a text is.
  const texts = e => brief(e.textContent);
  const own = (top, t) => top && (top === t.element || t.element.contains(top) || top.contains(t.element) && texts(top) === texts(t.element));
  const named = e => e ? `<${e.localName}${e.getAttribute('class') ? ' ' + e.getAttribute('class') : ''}> ${e.childElementCount ? '' : '“' + brief(e.textContent) + '”'}`.trim() : 'nothing';
  const reveal = (t, place) => {
    let [x, y] = place();
    if (t.scroller) {
      const b = t.scroller.getBoundingClientRect();
      if (x < b.left + 1 || x > b.right - 1) t.scroller.scrollLeft += x - (b.left + b.right) / 2;
    }
    if (y < 1 || y > innerHeight - 1) scrollBy(0, y - innerHeight / 2);
    return place();
  };
  const inset = r => Math.min(2, r.width / 4);
  const inBox = [
    r => [r.left + inset(r), r.top + r.height / 2], r => [r.left + r.width / 4, r.top + r.height / 2], r => [r.left + r.width / 2, r.top + r.height / 2],
    r => [r.left + 3 * r.width / 4, r.top + r.height / 2], r => [r.right - inset(r), r.top + r.height / 2],
    r => [r.left + r.width / 2, r.top + r.height / 4], r => [r.left + r.width / 2, r.top + 3 * r.height / 4],
  ];
  // places are where to look at a text: all over its boxes, and in pictures, where it may run
  // round a bend, at its letters' middles, feet and heads.
  const places = t => t.letters ? [1 / 3, 0.1, 0.55].flatMap(high => t.letters.map((_, i) => () => middle(t, i, 0.5, high)))
    .concat(() => middle(t, 0, 0.1), () => middle(t, t.letters.length - 1, 0.9))
    : t.rects().flatMap((_, i) => inBox.map(f => () => { const r = t.rects()[i]; return r ? f(r) : [-1, -1]; }));
  for (const t of shown) {
    let hidden, pale;
    const list = places(t), some = Math.ceil(list.length / 9); // a ground changes less often than a letter
    for (const [i, place] of list.entries()) {
      const [x, y] = reveal(t, place);
      const top = document.elementFromPoint(x, y);
      if (!top && sideways) break; // which is said
      if (!own(top, t)) { hidden = top ? `“${t.says}” lies under ${named(top)}` : `“${t.says}” is off the screen`; break; }
      if (i % some === 0) pale ||= judged(t, document.elementsFromPoint(x, y), x, y);
    }
    if (hidden) fault('hidden', hidden);
    if (pale) fault('contrast', pale);
  }
  scrollTo(0, 0);
  document.adoptedStyleSheets = document.adoptedStyleSheets.filter(s => s !== plain);
  return faults;
})
