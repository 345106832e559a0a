// At this address a handbook was hosted once, and the browser kept it. At a desk it must show what the desk has.
self.addEventListener('install', function () { self.skipWaiting(); });
self.addEventListener('activate', function (event) {
  event.waitUntil(caches.keys().then(function (names) {
    var ours = names.filter(function (name) { return name.indexOf('handbook ' + self.registration.scope + ' ') === 0; });
    return Promise.all(ours.map(function (name) { return caches.delete(name); }));
  }).then(function () { return self.registration.unregister(); })
    .then(function () { return self.clients.matchAll({ type: 'window' }); })
    .then(function (open) { open.forEach(function (page) { page.navigate(page.url); }); }));
});
