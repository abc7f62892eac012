// Files in and out: picked, dropped, downloaded or shared, every byte as it is.
'use strict';

const filed = (() => {
  const { el } = dom;

  function base64(bytes) {
    let text = '';
    for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
    return btoa(text);
  }

  const bytesOf = (text) => Uint8Array.from(atob(text), (c) => c.charCodeAt(0));

  // over is a file as it goes over the border: as text where it is UTF-8.
  async function over(file) {
    const bytes = new Uint8Array(await file.arrayBuffer());
    try {
      return { name: file.name, text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes) };
    } catch {
      return { name: file.name, base64: base64(bytes) };
    }
  }

  const zip = (file) => file.arrayBuffer().then((b) => base64(new Uint8Array(b)));
  const isZip = (file) => /\.zip$/i.test(file.name) || /zip/.test(file.type);

  // pick lets somebody choose files.
  function pick(take) {
    const input = el('input', { type: 'file', multiple: true, id: 'pick', class: 'aloud', tabindex: -1, 'aria-hidden': 'true' });
    input.addEventListener('change', () => {
      take([...input.files]);
      input.remove();
    });
    document.getElementById('pick')?.remove();
    document.body.append(input);
    input.click();
  }

  const named = (title) => (title.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-+|-+$/g, '').slice(0, 60) || 'job').toLowerCase();

  // give hands a file over: on a phone to whatever it shares with, else as a download. It is
  // where the file is then, or '' where who was asked thought better of it.
  async function give(name, type, data) {
    const file = new File([data], name, { type });
    const touch = matchMedia('(pointer: coarse)').matches;
    if (touch && navigator.canShare && navigator.canShare({ files: [file] })) {
      try {
        await navigator.share({ files: [file] });
        return 'It is where you shared it to.';
      } catch (why) {
        if (why.name === 'AbortError') return '';
      }
    }
    const url = URL.createObjectURL(file);
    const link = el('a', { href: url, download: name, class: 'aloud' });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(url), 60000);
    return 'It is on this device, where this browser puts its downloads.';
  }

  return { over, zip, isZip, pick, give, named, bytesOf };
})();
