(function () {
  'use strict';
  var follows = document.getElementById('follows'), form = document.getElementById('what-if'), answer = document.getElementById('answer');
  var words = follows.innerHTML, stream = null, asking = null;

  // The file: the server tells its version at once and at every change.
  function follow() {
    if (stream) return;
    stream = new EventSource('/events');
    stream.onopen = function () { follows.classList.remove('lost'); follows.innerHTML = words; };
    stream.onmessage = function (e) { if (e.data !== follows.dataset.version) location.reload(); };
    stream.onerror = function () {
      follows.classList.add('lost');
      follows.textContent = 'The program that serves this page does not answer: what you see may be older than the file.';
      if (stream.readyState === EventSource.CLOSED) { leave(); setTimeout(follow, 2000); }
    };
  }
  function leave() { if (stream) { stream.close(); stream = null; } }
  // A browser keeps few connections to one server: a page that nobody sees needs none.
  document.addEventListener('visibilitychange', function () { if (document.hidden) leave(); else follow(); });
  addEventListener('pageshow', follow);
  follow();
  if (!form) return;

  function rows(kind) { return Array.prototype.slice.call(form.querySelectorAll('.change.' + kind)); }
  function another(kind) {
    var all = rows(kind), last = all[all.length - 1], copy = last.cloneNode(true);
    copy.querySelectorAll('select').forEach(function (s) { s.selectedIndex = 0; });
    copy.querySelectorAll('input[type=number]').forEach(function (i) { i.value = i.defaultValue; });
    last.after(copy);
    return copy;
  }
  function fields(row) { return Array.prototype.slice.call(row.querySelectorAll('select, input')); }
  function kept() { return 'branchwork what-if ' + location.host; }
  function keep() {
    var state = {};
    ['units', 'dim'].forEach(function (k) { state[k] = rows(k).map(function (r) { return fields(r).map(function (f) { return f.value; }); }); });
    try { sessionStorage.setItem(kept(), JSON.stringify(state)); } catch (e) { return; }
  }
  function recall() {
    var state = null;
    try { state = JSON.parse(sessionStorage.getItem(kept())); } catch (e) { return false; }
    if (!state) return false;
    ['units', 'dim'].forEach(function (k) {
      (state[k] || []).forEach(function (values, i) {
        var have = rows(k);
        if (!have.length) return;
        fields(have[i] || another(k)).forEach(function (f, j) { if (values[j] !== undefined) f.value = values[j]; });
      });
    });
    return true;
  }
  function ask() {
    if (asking) asking.abort();
    asking = new AbortController();
    var q = new URLSearchParams(new FormData(form));
    q.set('part', 'answer');
    answer.classList.add('waiting');
    keep();
    fetch('/what-if?' + q, { signal: asking.signal, cache: 'no-store' }).then(function (r) { return r.text(); }).then(function (t) {
      answer.classList.remove('waiting');
      answer.innerHTML = t;
    }, function (e) {
      if (e.name === 'AbortError') return;
      answer.classList.remove('waiting');
      answer.textContent = 'The program that serves this page does not answer.';
    });
  }
  form.addEventListener('submit', function (e) { e.preventDefault(); ask(); });
  function button(id, act) {
    var b = document.getElementById(id);
    if (b) { b.hidden = false; b.addEventListener('click', act); }
  }
  button('more-units', function () { another('units').querySelector('select').focus(); });
  button('more-rooms', function () { another('dim').querySelector('select').focus(); });
  button('clear', function () {
    if (asking) asking.abort();
    ['units', 'dim'].forEach(function (k) { rows(k).slice(1).forEach(function (r) { r.remove(); }); });
    form.reset();
    answer.textContent = '';
    answer.classList.remove('waiting');
    try { sessionStorage.removeItem(kept()); } catch (e) { return; }
  });
  if (recall()) ask();
})();
