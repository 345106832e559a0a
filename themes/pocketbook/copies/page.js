// One leaf at a time out of a page that holds them all. Without this they follow one another.
(function () {
  'use strict';
  var leaves = [], front = document.title, laid = {}, root = document.documentElement;
  root.classList.add('opening');
  // What a script would fetch from the folder stands in this page, and is handed out as if it had been fetched.
  document.querySelectorAll('script[data-path]').forEach(function (script) { laid[script.dataset.path] = script; });
  var src = Object.getOwnPropertyDescriptor(HTMLScriptElement.prototype, 'src');
  Object.defineProperty(HTMLScriptElement.prototype, 'src', {
    get: src.get,
    set: function (path) {
      var here = laid[path] || laid['kit/' + path], script = this;
      if (here) script.text = here.text;
      setTimeout(function () { script.dispatchEvent(new Event(here ? 'load' : 'error')); });
    },
  });
  // A link as it would be in the folder, made one within this page.
  function within(link) {
    var at = /^(?:\.\.?\/)*([^:?#]+\.html)(?:\?[^#]*)?(?:#(.*))?$/.exec(link.getAttribute('href') || '');
    if (at && document.getElementById(decodeURIComponent(at[1]))) link.setAttribute('href', '#' + at[1] + (at[2] ? ':' + at[2] : ''));
  }
  function show() {
    var named = document.getElementById(decodeURIComponent(location.hash.slice(1))), at = named && named.closest('.one-leaf');
    if (named && !at && leaves.some(function (leaf) { return !leaf.hidden; })) return; // the tail, not a leaf
    at = at || leaves[0];
    var cut = document.querySelector('.tail-cut');
    leaves.forEach(function (leaf) { leaf.hidden = leaf !== at; });
    root.classList.remove('opening');
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
    new MutationObserver(function (changes) {
      changes.forEach(function (change) {
        change.addedNodes.forEach(function (node) {
          if (node.nodeType !== 1) return;
          if (node.matches('a[href]')) within(node);
          node.querySelectorAll('a[href]').forEach(within);
        });
      });
    }).observe(document.body, { childList: true, subtree: true });
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
