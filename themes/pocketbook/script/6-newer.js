// From a web server the browser keeps the whole handbook (see keeper.js), and a newer edition is spoken of, not sprung on a
// reader in the middle of a diagnosis: it opens when asked to.
(() => {
  var here = document.currentScript?.src;
  // A desk keeps nothing.
  if (!here || !/^https?:/.test(location.protocol) || document.documentElement.dataset.desk) return;
  var top = new URL('..', here), manifest = make('link'), workers = navigator.serviceWorker;
  manifest.rel = 'manifest';
  manifest.href = new URL('edition.webmanifest', top).href;
  document.head.append(manifest);
  if (!workers) return;
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
    workers.addEventListener('controllerchange', () => { if (asked) location.reload(); });
    workers.register(new URL('keeper.js', top).href).then(registration => {
      if (registration.waiting && workers.controller) tell(registration, registration.waiting);
      registration.onupdatefound = () => {
        var worker = registration.installing;
        worker.onstatechange = () => {
          if (worker.state === 'installed' && workers.controller) tell(registration, worker);
        };
      };
    // Where it cannot be kept the handbook reads on.
    }).catch(() => {});
  });
})();
