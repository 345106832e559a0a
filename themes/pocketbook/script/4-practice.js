// Problems: an answer is held against the key; a slip that is known is named; another like it can be had.
(function () {
  'use strict';
  document.addEventListener('DOMContentLoaded', function () {
    document.querySelectorAll('.problem[data-draws]').forEach(function (problem) {
      var draws = JSON.parse(problem.dataset.draws), at = 0, form = problem.querySelector('.try');
      var input = form.querySelector('input'), verdict = form.querySelector('.verdict');
      function metric() { var si = document.getElementById('units-si'); return si && si.checked ? 'si' : 'us'; }
      function put(node, both) {
        node.textContent = '';
        ['us', 'si'].forEach(function (system) {
          var span = document.createElement('span');
          span.className = system;
          span.textContent = both[system];
          node.appendChild(span);
        });
      }
      form.addEventListener('submit', function (event) {
        event.preventDefault();
        var draw = draws[at], system = metric(), typed = parseFloat(input.value.replace('\u2212', '-').replace(/,(?=\d{3})/g, ''));
        function near(number) { return Math.abs(typed - number) <= draw.within[system] * (1 + 1e-9); }
        if (isNaN(typed)) { verdict.textContent = verdict.dataset.none; return; }
        if (near(draw.number[system])) { verdict.textContent = verdict.dataset.right; return; }
        var slip = draw.slips.filter(function (s) { return near(s[1][system]); })[0];
        verdict.textContent = slip ? verdict.dataset[slip[0]] : verdict.dataset.wrong;
      });
      var another = form.querySelector('[data-another]');
      if (another) another.addEventListener('click', function () {
        at = (at + 1) % draws.length;
        put(problem.querySelector('[data-ask]'), draws[at].ask);
        put(problem.querySelector('[data-answer]'), draws[at].answer);
        // The printed working is that of the first draw.
        problem.querySelector('[data-working]').hidden = at !== 0;
        problem.querySelector('.key-answer').open = false;
        input.value = '';
        verdict.textContent = '';
        input.focus();
      });
    });
  });
})();
