// Keeps the whole of one edition, so that every leaf opens without a network from the first visit on. `edition`, `book`
// and `files` (path: digest of its content) stand above. Nothing is mixed: a file that is not of this edition is refused.
'use strict';
var PREFIX = 'handbook ' + self.registration.scope + ' ', NAME = PREFIX + book, LIST = 'kept-list', AT_ONCE = 6;

function address(path) { return new URL(path.split('/').map(encodeURIComponent).join('/'), self.registration.scope).href; }

// What earlier editions kept, by content: most leaves of a new edition are those of the one before.
function kept() {
  return caches.keys().then(function (names) {
    return Promise.all(names.filter(function (name) { return name.indexOf(PREFIX) === 0; }).map(function (name) {
      return caches.open(name).then(function (cache) {
        return cache.match(address(LIST)).then(function (list) { return list ? list.json() : {}; }).then(function (list) {
          return Object.keys(list).map(function (path) { return [list[path], cache, path]; });
        });
      });
    }));
  }).then(function (all) {
    var known = new Map();
    all.forEach(function (list) { list.forEach(function (entry) { known.set(entry[0], entry); }); });
    return known;
  });
}

function keep(cache, known, path) {
  var before = known.get(files[path]);
  var had = before ? before[1].match(address(before[2])) : Promise.resolve(undefined);
  return had.then(function (response) {
    return response || fetch(address(path), { cache: 'no-cache', integrity: files[path], credentials: 'same-origin' });
  }).then(function (response) {
    if (!response.ok || response.redirected) throw new Error(path + ': ' + response.status);
    return cache.put(address(path), response);
  });
}

self.addEventListener('install', function (event) {
  event.waitUntil(Promise.all([caches.open(NAME), kept()]).then(function (both) {
    var left = Object.keys(files);
    function next() { var path = left.pop(); return path === undefined ? undefined : keep(both[0], both[1], path).then(next); }
    var hands = [];
    for (var i = 0; i < AT_ONCE; i++) hands.push(next());
    return Promise.all(hands).then(function () {
      return both[0].put(address(LIST), new Response(JSON.stringify(files), { headers: { 'Content-Type': 'application/json' } }));
    });
  }));
});

self.addEventListener('activate', function (event) {
  event.waitUntil(caches.keys().then(function (names) {
    return Promise.all(names.filter(function (name) { return name.indexOf(PREFIX) === 0 && name !== NAME; }).map(function (name) { return caches.delete(name); }));
  }).then(function () { return self.clients.claim(); }));
});

self.addEventListener('fetch', function (event) {
  var url = new URL(event.request.url);
  if (event.request.method !== 'GET' || url.href.indexOf(self.registration.scope) !== 0) return;
  var path = decodeURIComponent(url.pathname.slice(new URL(self.registration.scope).pathname.length)) || 'index.html';
  if (!Object.prototype.hasOwnProperty.call(files, path)) return;
  event.respondWith(caches.open(NAME).then(function (cache) { return cache.match(address(path)); }).then(function (response) {
    return response || fetch(event.request);
  }));
});

self.addEventListener('message', function (event) {
  if (event.data === 'which') event.ports[0].postMessage(edition);
  if (event.data === 'open') event.waitUntil(self.skipWaiting());
});
