// A straightedge laid by Find round the rows of a table that a reading falls between: `?lay=us-37-38#table-r-410a`.
ready(() => {
  var lay = /^(us|si)-(\d+)-(\d+)$/.exec(new URLSearchParams(location.search).get('lay') || '');
  var table = lay && document.getElementById(location.hash.slice(1));
  var rows = table ? table.querySelectorAll('.' + lay[1] + ' tbody tr') : [];
  if (!rows[lay && lay[3]]) return;
  rows[lay[2]].classList.add('laid-from');
  rows[lay[3]].classList.add('laid-to');
  // What was asked in one system of units is shown in it.
  document.getElementById('units-' + lay[1]).checked = true;
  document.documentElement.dataset.units = lay[1];
  window.addEventListener('load', () => { rows[lay[2]].scrollIntoView({ block: 'center' }); });
});
