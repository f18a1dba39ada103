// Says what is wrong with a sheet while it is typed. Without this script the page does the same each time it is saved.
"use strict";
(() => {
  const form = document.getElementById("editor");
  const looked = document.getElementById("looked");
  const text = document.getElementById("text");
  const PAUSE_MS = 700;
  let waiting = 0;
  let asked = 0;

  async function look() {
    const mine = ++asked;
    const answer = await fetch(form.dataset.look, { method: "POST", body: new FormData(form) }).catch(() => null);
    // An answer to an older text than the one that stands there now is no longer true.
    if (mine === asked && answer && answer.ok) {
      looked.innerHTML = await answer.text();
      looked.dataset.looked = String(mine);
    }
  }

  text.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(look, PAUSE_MS);
  });

  // What was typed and not saved is not lost by a slip of the thumb.
  const asSaved = text.value;
  let saving = false;
  form.addEventListener("submit", () => { saving = true; });
  addEventListener("beforeunload", (event) => {
    if (!saving && text.value !== asSaved) event.preventDefault();
  });
})();
