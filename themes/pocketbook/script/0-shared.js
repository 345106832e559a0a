// The handbook reads without this script. It remembers units and light, turns the key one question at a time, and finds.
'use strict';
// Of all scripts, which are one when they come to the page: what waits for the page to be there.
function ready(then) { document.addEventListener('DOMContentLoaded', then); }
// The system of units that is shown.
function system() { return document.documentElement.dataset.units || 'us'; }
function make(name, kind, inside) { var n = document.createElement(name); if (kind) n.className = kind; n.append(...(inside || [])); return n; }
// Puts into a node what both systems of units say, once where they say the same; what is said so or so is a text alone.
function put(node, both, how) {
  if (typeof both === 'string') both = { us: both, si: both };
  (both.us === both.si ? [''] : ['us', 'si']).forEach(system => {
    var span = make('span', system);
    span[how || 'textContent'] = both[system || 'us'];
    node.append(span);
  });
}
function putAnew(node, both) { node.textContent = ''; put(node, both); }
