// Nothing is to be worked on this page: only units and light are recalled, and the button prints.
(function (root) {
  root.classList.add('js');
  try { ['units', 'light'].forEach(function (what) { var kept = localStorage.getItem('pocketbook.' + what); if (kept) root.dataset[what] = kept; }); } catch (e) { /* nothing kept */ }
  document.addEventListener('click', function (event) { if (event.target.closest('[data-print]')) window.print(); });
})(document.documentElement);
