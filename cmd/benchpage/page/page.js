'use strict';

(async () => {
  const began = performance.now();
  const response = await core.ask({ action: 'hello' });
  document.getElementById('state').textContent = `Ready after ${Math.round(performance.now() - began)} ms.`;
  document.getElementById('answer').textContent = JSON.stringify(response, null, 1);
})();
