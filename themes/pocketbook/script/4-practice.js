// Problems: an answer is held against the key; a slip that is known is named; another like it can be had.
ready(() => {
  document.querySelectorAll('.problem[data-draws]').forEach(problem => {
    var draws = JSON.parse(problem.dataset.draws), at = 0, form = problem.querySelector('.try');
    var input = form.querySelector('input'), verdict = form.querySelector('.verdict');
    form.onsubmit = event => {
      event.preventDefault();
      var draw = draws[at], kind = problem.dataset.kind, typed, air;
      if (input.value.trim() === '') { verdict.textContent = verdict.dataset.none; return; }
      try {
        // The key was reckoned at the handbook's altitude, whatever the reader's own is.
        air = reckoner.runtime.air(reckoner.handbook.altitude);
        typed = reckoner.value(reckoner.readIn(input.value, kind, (problem.querySelector('.try .unit .' + system()) || problem.querySelector('.try .unit')).textContent), air);
      } catch (error) { verdict.textContent = error.message; return; }
      function near(number) { return Math.abs(typed - number) <= draw.within * (1 + 1e-9); }
      if (near(draw.number)) { verdict.textContent = verdict.dataset.right; return; }
      var slip = draw.slips.filter(s => near(s[1]))[0];
      verdict.textContent = slip ? verdict.dataset[slip[0]] : verdict.dataset.wrong;
    };
    var another = form.querySelector('[data-another]');
    if (another) another.onclick = () => {
      at = (at + 1) % draws.length;
      putAnew(problem.querySelector('[data-ask]'), draws[at].ask);
      putAnew(problem.querySelector('[data-answer]'), draws[at].answer);
      var printed = document.querySelector('.keys [data-for="' + problem.id + '"]');
      if (printed) putAnew(printed, draws[at].answer);
      // The printed working is that of the first draw.
      problem.querySelector('[data-working]').hidden = at !== 0;
      problem.querySelector('.key-answer').open = false;
      input.value = '';
      verdict.textContent = '';
      input.focus();
    };
  });
});
