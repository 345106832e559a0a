// The handbook reads without this script. It remembers units and light, turns the key one question at a time, and finds.
(function () {
  'use strict';
  var root = document.documentElement;
  // A locked-down reader keeps nothing; the choice then holds for the leaf.
  function kept(what) { try { return localStorage.getItem('pocketbook.' + what); } catch (e) { return null; } }
  function keep(what, value) { try { localStorage.setItem('pocketbook.' + what, value); } catch (e) {} }
  function recall() {
    ['units', 'light'].forEach(function (what) {
      var value = kept(what);
      if (!value) return;
      root.dataset[what] = value;
      var radio = document.getElementById(what + '-' + value);
      if (radio) radio.checked = true;
    });
  }
  root.classList.add('js');
  // Before anything is painted, and again on a leaf gone back to, which may have been left with another choice.
  recall();
  window.addEventListener('pageshow', recall);
  document.addEventListener('DOMContentLoaded', function () {
    recall();
    var light = document.querySelector('.light');
    document.querySelectorAll('.tail input[type=radio]').forEach(function (radio) {
      radio.addEventListener('change', function () {
        root.dataset[radio.name] = radio.value;
        keep(radio.name, radio.value);
      });
    });
    document.addEventListener('click', function (event) { if (light.open && !light.contains(event.target)) light.open = false; });
    document.addEventListener('keydown', function (event) {
      if (event.key !== 'Escape' || !light.open) return;
      light.open = false;
      light.querySelector('summary').focus();
    });
    document.querySelectorAll('[data-print]').forEach(function (button) { button.addEventListener('click', function () { window.print(); }); });
  });
  // Workings print open.
  var shut = [];
  window.addEventListener('beforeprint', function () {
    shut = [...document.querySelectorAll('.working:not([open])')];
    shut.forEach(function (details) { details.open = true; });
  });
  window.addEventListener('afterprint', function () { shut.forEach(function (details) { details.open = false; }); });
})();
