// Units and light as they were chosen, and what prints.
(() => {
  var root = document.documentElement;
  // A locked-down reader keeps nothing; the choice then holds for the leaf.
  function kept(what) { try { return localStorage.getItem('pocketbook.' + what); } catch { return null; } }
  function keep(what, value) { try { localStorage.setItem('pocketbook.' + what, value); } catch {} }
  // The root always says what is chosen: a style that had to look for the choice would look through a whole book at each change.
  function recall() {
    ['units', 'light'].forEach(what => {
      var value = kept(what), radio = value ? document.getElementById(what + '-' + value) : document.querySelector('[name=' + what + ']:checked');
      if (radio) radio.checked = true;
      if (value || radio) root.dataset[what] = value || radio.value;
    });
  }
  root.classList.add('js');
  // Before anything is painted, and again on a leaf gone back to, which may have been left with another choice.
  recall();
  window.addEventListener('pageshow', recall);
  ready(() => {
    recall();
    var light = document.querySelector('.light');
    document.querySelectorAll('.tail input[type=radio]').forEach(radio => {
      radio.addEventListener('change', () => {
        root.dataset[radio.name] = radio.value;
        keep(radio.name, radio.value);
      });
    });
    document.addEventListener('click', event => { if (light.open && !light.contains(event.target)) light.open = false; });
    document.addEventListener('keydown', event => {
      if (event.key !== 'Escape' || !light.open) return;
      light.open = false;
      light.querySelector('summary').focus();
    });
    document.querySelectorAll('[data-print]').forEach(button => { button.onclick = () => { window.print(); }; });
  });
  // Workings print open.
  var shut = [];
  window.addEventListener('beforeprint', () => {
    shut = [...document.querySelectorAll('.working:not([open])')];
    shut.forEach(details => { details.open = true; });
  });
  window.addEventListener('afterprint', () => { shut.forEach(details => { details.open = false; }); });
})();
