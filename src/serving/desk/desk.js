// The page follows the files: it asks for the next turn, and takes over what is new without losing its place.
(function () {
  'use strict';
  var root = document.documentElement, PLACE = 'desk.place ' + location.pathname, asking;
  // Laid where the page stood before it was opened anew.
  var place = sessionStorage.getItem(PLACE);
  if (place !== null) {
    sessionStorage.removeItem(PLACE);
    window.scrollTo(0, +place);
    window.addEventListener('load', function () { window.scrollTo(0, +place); });
  }
  function open_anew() {
    sessionStorage.setItem(PLACE, String(window.scrollY));
    location.reload();
  }
  function open_ones(inside) { return [].map.call(inside.querySelectorAll('details'), function (d) { return d.open; }); }
  function turn(text) {
    var next = new DOMParser().parseFromString(text, 'text/html'), book = document.querySelector('.book'), other = next.querySelector('.book');
    // Another theme, or a page whose script has a way to keep: opened anew at the same place.
    if (!book || !other || next.documentElement.dataset.kit !== root.dataset.kit || document.querySelector('ol.key') || next.querySelector('ol.key')) return open_anew();
    var at = window.scrollY, open = open_ones(book), listed = document.querySelector('.desk-list details');
    root.dataset.desk = next.documentElement.dataset.desk;
    document.title = next.title;
    document.body.className = next.body.className;
    book.replaceChildren.apply(book, [].map.call(other.childNodes, function (n) { return document.importNode(n, true); }));
    var now = book.querySelectorAll('details');
    if (now.length === open.length) open.forEach(function (is, i) { now[i].open = is; });
    var list = document.importNode(next.querySelector('.desk-list'), true);
    list.querySelector('details').open = listed.open;
    listed.closest('.desk-list').replaceWith(list);
    window.scrollTo({ top: at, behavior: 'instant' });
    // Scripts of the handbook take up the problems and forms that are new.
    document.dispatchEvent(new Event('DOMContentLoaded'));
  }
  // The page itself is the answer to the question for the next turn, so that one way to the desk and back is enough.
  function follow() {
    if (document.hidden) { asking = null; return; }
    asking = fetch('/desk/next' + location.pathname + '?' + root.dataset.desk, { cache: 'no-store' }).then(function (answer) { return answer.text(); }).then(function (text) {
      root.classList.remove('desk-away');
      if (text) turn(text);
    }).catch(function () {
      root.classList.add('desk-away');
      return new Promise(function (later) { setTimeout(later, 500); });
    }).then(follow);
  }
  // A page that is not looked at holds no connection, of which a browser has few.
  document.addEventListener('visibilitychange', function () { if (!document.hidden && !asking) follow(); });
  follow();
})();
