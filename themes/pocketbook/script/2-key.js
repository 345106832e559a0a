// The key: one question at a time. Each answer is a plain link, so the browser's own way back is a step back.
document.addEventListener('DOMContentLoaded', function () {
 'use strict';
 // A copy in one page has a key for every tree.
 document.querySelectorAll('ol.key').forEach(function (list) {
  var sheet = list.parentNode, body = sheet.parentNode.querySelector('[data-readings]'), spare = body.innerHTML;
  var name = 'pocketbook.way.' + location.pathname + '#' + list.dataset.start, taken = [];
  try { taken = JSON.parse(sessionStorage.getItem(name)) || []; } catch (e) { /* nothing kept */ }
  taken = taken.filter(function (step) { return document.getElementById(step.from) && document.getElementById(step.to) && way(step); });

  function way(step) { return document.getElementById(step.from).querySelector('.ways a[href="#' + CSS.escape(step.to) + '"]'); }
  function asked() {
    var at = document.getElementById(location.hash.slice(1));
    return at && sheet.contains(at) && (at.classList.contains('step') || at.classList.contains('end')) ? at.id : list.dataset.start;
  }
  function cell(row, from) { var td = document.createElement('td'); if (from.nodeType) td.append.apply(td, from.cloneNode(true).childNodes); else td.textContent = from; row.appendChild(td); }
  function show(move) {
    var here = asked();
    // Gone back, or begun again: what was answered after here is no longer so.
    for (var i = 0; i < taken.length; i++) if (taken[i].from === here) taken.length = i;
    if (taken.length && taken[taken.length - 1].to !== here) taken = [];
    try { sessionStorage.setItem(name, JSON.stringify(taken)); } catch (e) { /* not kept */ }
    sheet.querySelectorAll('.open,.chosen').forEach(function (n) { n.classList.remove('open', 'chosen'); n.removeAttribute('aria-current'); });
    var at = document.getElementById(here);
    at.classList.add('open');
    body.textContent = '';
    taken.forEach(function (step) {
      var link = way(step), row = document.createElement('tr');
      link.classList.add('chosen');
      link.setAttribute('aria-current', 'step');
      cell(row, step.at);
      cell(row, document.getElementById(step.from).dataset.name);
      cell(row, link.querySelector('.if'));
      body.appendChild(row);
    });
    if (!taken.length) body.innerHTML = spare;
    sheet.querySelector('[data-act=back]').disabled = !taken.length;
    if (move && sheet.classList.contains('walk')) {
      var head = at.querySelector('h3');
      head.tabIndex = -1;
      head.focus({ preventScroll: true });
      at.scrollIntoView({ block: 'start' });
    }
  }
  list.addEventListener('click', function (event) {
    var link = event.target.closest('.ways a');
    if (!link) return;
    var now = new Date(), two = function (n) { return (n < 10 ? '0' : '') + n; };
    taken.push({ from: link.closest('.step').id, to: link.getAttribute('href').slice(1), at: two(now.getHours()) + ':' + two(now.getMinutes()) });
  });
  window.addEventListener('hashchange', function () { show(true); });
  sheet.addEventListener('click', function (event) {
    var button = event.target.closest('[data-act]');
    if (!button) return;
    if (button.dataset.act === 'again') { taken = []; location.hash = list.dataset.start; show(true); }
    if (button.dataset.act === 'back' && taken.length) location.hash = taken[taken.length - 1].from;
    if (button.dataset.act === 'whole') button.setAttribute('aria-pressed', String(!sheet.classList.toggle('walk')));
  });
  sheet.classList.add('walk');
  show(false);
 });
});
