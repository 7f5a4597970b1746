// Searches the index of the site, which the script before this one defines. Nothing is asked of any server.
"use strict";
(() => {
  const most = 60; // results that are shown
  const box = document.getElementById("search.box");
  const words = document.getElementById("search.words");
  const count = document.getElementById("search.count");
  const list = document.getElementById("search.found");

  // Letters that no accent can be taken off.
  const plain = { "ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "ı": "i", "−": "-" };
  const fold = (text) => text.toLowerCase().normalize("NFD").replace(/\p{M}+/gu, "").replace(/[ßæœøłđðþı−]/g, (c) => plain[c]);

  const things = searchIndex.flatMap(([kind, before, after, items]) => items.map(([name, title, more = ""]) => {
    const shown = title === 0 ? decodeURIComponent(name) : title;
    const day = kind === "entry" ? more || (name.match(/^\d{4}-\d\d-\d\d/) || [""])[0] : "";
    const rest = before === "" ? more : decodeURIComponent(name) + " " + more;
    return { kind, href: before + name + after, shown, aside: kind === "entry" ? day : more, title: fold(shown), rest: fold(rest) };
  }));

  // How well a word fits a text: 0 at its beginning, 1 at that of a word in it, 2 inside; 9 not at all.
  const fit = (text, word) => {
    let best = 9;
    for (let at = text.indexOf(word); at >= 0 && best > 1; at = text.indexOf(word, at + 1)) {
      best = Math.min(best, at === 0 ? 0 : /[\p{L}\p{N}]/u.test(text[at - 1]) ? 2 : 1);
    }
    return best;
  };

  // The lower the better; nothing where a word is in neither title nor rest.
  const rank = (thing, query, asked) => {
    if (thing.title === query) return -2;
    if (thing.title.startsWith(query)) return -1;
    let sum = 0;
    for (const word of asked) {
      const one = Math.min(fit(thing.title, word), 3 + fit(thing.rest, word));
      if (one > 5) return null;
      sum += one;
    }
    return sum;
  };

  const find = (text) => {
    const query = fold(text).trim().replace(/\s+/g, " ");
    if (query === "") return null;
    const asked = query.split(" ");
    return things.map((thing, order) => ({ thing, order, rank: rank(thing, query, asked) }))
      .filter((found) => found.rank !== null)
      .sort((a, b) => a.rank - b.rank || a.order - b.order)
      .map((found) => found.thing);
  };

  const line = (thing) => {
    const item = document.createElement("li");
    const link = document.createElement("a");
    link.href = thing.href;
    link.textContent = thing.shown;
    const kind = document.createElement("span");
    kind.className = "how";
    kind.textContent = thing.aside === "" ? thing.kind : thing.kind + ", " + thing.aside;
    item.append(link, " ", kind);
    return item;
  };

  let spoken = 0;
  const show = () => {
    const found = find(words.value);
    list.replaceChildren(...(found || []).slice(0, most).map(line));
    const say = found === null ? "" : found.length === 0 ? "Nothing is found." : found.length > most ? `The best ${most} of ${found.length} that are found.` : `${found.length} found.`;
    // Said once the typing stops: a reader's voice need not follow every letter.
    clearTimeout(spoken);
    spoken = setTimeout(() => { count.textContent = say; }, 300);
    history.replaceState(null, "", words.value === "" ? location.pathname + location.search : "#" + encodeURIComponent(words.value));
  };

  const walk = (event) => {
    const links = [...list.querySelectorAll("a")];
    const at = links.indexOf(document.activeElement);
    if (event.key === "ArrowDown" && at + 1 < links.length) links[at + 1].focus();
    else if (event.key === "ArrowUp" && at > 0) links[at - 1].focus();
    else if (event.key === "ArrowUp" && at === 0) words.focus();
    else if (event.key === "Escape" && at >= 0) words.focus();
    else if (event.key === "Enter" && at < 0 && links.length > 0 && !event.isComposing) links[0].click();
    else return;
    event.preventDefault();
  };

  // The words stand in the address, so that a search can be kept and comes back with the way back.
  const recall = () => {
    if (location.hash === "#page.content") return; // the way past the navigation
    try { words.value = decodeURIComponent(location.hash.slice(1)); } catch { return; }
    if (words.value !== "") show();
  };

  box.hidden = false;
  box.addEventListener("keydown", walk);
  words.addEventListener("input", show);
  addEventListener("hashchange", recall);
  words.focus({ preventScroll: true });
  recall();
})();
