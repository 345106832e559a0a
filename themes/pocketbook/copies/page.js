// One leaf at a time out of a page that holds them all. Without this they follow one another.
(function () {
  'use strict';
  var leaves = [], front = document.title;
  // What Find knows by its path in the folder stands in this page.
  function inside(address) { return '#' + address.replace('#', ':'); }
  Object.keys(window.handbook).forEach(function (name) {
    var part = window.handbook[name];
    if (/^e\d/.test(name)) part.forEach(function (entry) { entry[1] = inside(entry[1]); });
    if (/^t\d/.test(name)) part.href = inside(part.href);
  });
  function show() {
    var named = document.getElementById(decodeURIComponent(location.hash.slice(1))), at = named && named.closest('.one-leaf');
    if (named && !at && leaves.some(function (leaf) { return !leaf.hidden; })) return; // the tail, not a leaf
    at = at || leaves[0];
    var cut = document.querySelector('.tail-cut');
    leaves.forEach(function (leaf) { leaf.hidden = leaf !== at; });
    document.body.className = at.dataset.body;
    document.title = at === leaves[0] ? front : at.dataset.title;
    cut.replaceChildren(at.querySelector('template').content.cloneNode(true));
    cut.setAttribute('href', '#' + at.id + ':thumb');
    if (named && named !== at) named.scrollIntoView(); else window.scrollTo(0, 0);
  }
  window.addEventListener('hashchange', show);
  document.addEventListener('DOMContentLoaded', function () {
    leaves = [].slice.call(document.querySelectorAll('.one-leaf'));
    show();
    document.addEventListener('submit', function (event) {
      var form = event.target, field = document.getElementById('find'), asked = form.querySelector('[name=for]');
      if (!asked || (form.getAttribute('action') || '').charAt(0) !== '#') return;
      event.preventDefault();
      field.value = asked.value;
      location.hash = form.getAttribute('action');
      field.dispatchEvent(new Event('input'));
    });
  });
})();
