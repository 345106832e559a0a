// From a web server the browser keeps the whole handbook (see keeper.js), and a newer edition is spoken of, not sprung on a
// reader in the middle of a diagnosis: it opens when asked to.
(() => {
  var here = document.currentScript && document.currentScript.src;
  // A desk keeps nothing.
  if (!here || !/^https?:/.test(location.protocol) || document.documentElement.dataset.desk) return;
  var top = new URL('..', here), manifest = make('link');
  manifest.rel = 'manifest';
  manifest.href = new URL('edition.webmanifest', top).href;
  document.head.appendChild(manifest);
  if (!('serviceWorker' in navigator)) return;
  var asked = false;
  function tell(registration, worker) {
    var line = document.querySelector('[data-newer]'), channel = new MessageChannel();
    if (!line) return;
    channel.port1.onmessage = event => {
      line.querySelector('span').textContent = line.dataset.newer.replace('{edition}', event.data);
      line.querySelector('a').onclick = press => { press.preventDefault(); asked = true; worker.postMessage('open'); };
      line.hidden = false;
    };
    worker.postMessage('which', [channel.port2]);
  }
  window.addEventListener('load', () => {
    navigator.serviceWorker.addEventListener('controllerchange', () => { if (asked) location.reload(); });
    navigator.serviceWorker.register(new URL('keeper.js', top).href).then(registration => {
      if (registration.waiting && navigator.serviceWorker.controller) tell(registration, registration.waiting);
      registration.addEventListener('updatefound', () => {
        var worker = registration.installing;
        worker.addEventListener('statechange', () => {
          if (worker.state === 'installed' && navigator.serviceWorker.controller) tell(registration, worker);
        });
      });
    // Where it cannot be kept the handbook reads on.
    }).catch(() => {});
  });
})();
