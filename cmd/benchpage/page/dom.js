// Elements, made one by one: a text from outside is only ever a text. Pictures of the core
// are parsed as SVG and imported without what could run.
'use strict';

const dom = (() => {
  const inSVG = 'http://www.w3.org/2000/svg';

  // set gives an element its properties: on has listeners, class and text what they say, and
  // every other one is an attribute; one that is false or undefined is left out.
  function set(node, props) {
    for (const [name, value] of Object.entries(props)) {
      if (value === undefined || value === false || value === null) continue;
      if (name === 'on') for (const [event, f] of Object.entries(value)) node.addEventListener(event, f);
      else if (name === 'text') node.textContent = value;
      else node.setAttribute(name, value === true ? '' : value);
    }
    return node;
  }

  const kids = (node, list) => {
    node.append(...list.flat(Infinity).filter((k) => k !== undefined && k !== null && k !== false && k !== ''));
    return node;
  };

  // el is an element with its properties and what is in it.
  const el = (tag, props = {}, ...list) => kids(set(document.createElement(tag), props), list);

  // draw is the same in SVG.
  const draw = (tag, props = {}, ...list) => kids(set(document.createElementNS(inSVG, tag), props), list);

  // put puts a list in the place of what a node holds.
  function put(node, ...list) {
    node.replaceChildren();
    return kids(node, list);
  }

  // button is one that a thumb finds.
  const button = (text, act, props = {}) => el('button', { type: 'button', ...props, on: { click: act } }, text);

  // paragraphs are texts, each a paragraph.
  const paragraphs = (texts, props = {}) => (texts || []).map((text) => el('p', { ...props, text }));

  // lines are a drawing of characters, or lines that keep their breaks: as large as fit beside
  // one another, and what is too wide even when small is scrolled in a box of its own.
  function lines(text) {
    const node = el('pre', { text, tabindex: 0 });
    node.style.setProperty('--wide', Math.max(...text.split('\n').map((line) => line.length), 1));
    return node;
  }

  const styled = new Set(); // style sheets of pictures that are there already

  // picture is a drawing of the core, or nothing where it is no SVG.
  function picture(text) {
    // its style goes before it is parsed: the page's rules take none that stands in it
    const bare = text.replace(/<style>([^<]*)<\/style>/g, (_, rules) => {
      style(rules);
      return '';
    });
    const parsed = new DOMParser().parseFromString(bare, 'image/svg+xml');
    const root = parsed.documentElement;
    if (root.namespaceURI !== inSVG || root.localName !== 'svg') return null;
    for (const node of [root, ...root.querySelectorAll('*')]) harmless(node);
    return document.importNode(root, true);
  }

  // harmless takes out of a node whatever could run.
  function harmless(node) {
    if (['style', 'script', 'foreignObject', 'iframe', 'a', 'image', 'use'].includes(node.localName)) {
      node.remove();
      return;
    }
    for (const { name } of [...node.attributes]) {
      if (/^on|href$|^style$/i.test(name)) node.removeAttribute(name);
    }
  }

  function style(text) {
    if (styled.has(text)) return;
    styled.add(text);
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(text);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  }

  // icon is one of a few drawings of 24 by 24, said by what stands beside it.
  function icon(name) {
    const paths = {
      forward: ['M19 7a8.5 8.5 0 1 0 1.4 6.2', 'M20.5 2.5V8H15'],
      backward: ['M5 7a8.5 8.5 0 1 1-1.4 6.2', 'M3.5 2.5V8H9'],
      speak: ['M4 9.5v5h3.5L12 18.5v-13L7.5 9.5z', 'M15 9a4.2 4.2 0 0 1 0 6', 'M17.6 6.4a8 8 0 0 1 0 11.2'],
      erase: ['M9 5.5h12v13H9L3 12z', 'M12 9.5l5 5m0-5l-5 5'],
      undo: ['M9 5L4 10l5 5', 'M4.5 10H14a5.5 5.5 0 0 1 0 11h-3'],
    };
    return draw('svg', { viewBox: '0 0 24 24', class: 'icon', 'aria-hidden': 'true', focusable: 'false' },
      (paths[name] || []).map((d) => draw('path', { d })));
  }

  // sign is the sign of a state: ring with a dot, solid square with a cross, half diamond.
  function sign(state) {
    const shapes = {
      within: [draw('circle', { cx: 12, cy: 12, r: 9, class: 'line' }), draw('circle', { cx: 12, cy: 12, r: 3, class: 'full' })],
      outside: [draw('rect', { x: 2.5, y: 2.5, width: 19, height: 19, class: 'alarm' }), draw('path', { d: 'M7 7l10 10m0-10L7 17', class: 'cross' })],
      close: [draw('path', { d: 'M12 2v20L2 12z', class: 'full' }), draw('path', { d: 'M12 2l10 10-10 10L2 12z', class: 'line' })],
      none: [draw('path', { d: 'M5 12h14', class: 'line' })],
    };
    return draw('svg', { viewBox: '0 0 24 24', class: 'sign', 'aria-hidden': 'true' }, shapes[state] || shapes.none);
  }

  return { el, draw, put, button, paragraphs, lines, picture, icon, sign };
})();
