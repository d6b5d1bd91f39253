// Site sheets are folded but for the first; a link to one opens it, and paper shows them all. Without
// the script every sheet stands open.
const folds = [...document.querySelectorAll(".site-sheet > details")];
const foldAt = (hash) => {
  const sheet = document.getElementById(hash.slice(1));
  return sheet && sheet.querySelector(":scope > details");
};
const unfold = (hash) => {
  const fold = foldAt(hash);
  if (fold && !fold.open) {
    fold.open = true;
    return true;
  }
  return false;
};
folds.forEach((fold, i) => { fold.open = i === 0; });
const unfoldTarget = () => {
  if (unfold(location.hash)) foldAt(location.hash).parentElement.scrollIntoView();
};
unfoldTarget();
addEventListener("hashchange", unfoldTarget);
// Before the browser goes there, also where the address names the sheet already.
document.addEventListener("click", (event) => {
  const link = event.target.closest('a[href^="#site-"]');
  if (link) unfold(link.getAttribute("href"));
});

let folded = [];
addEventListener("beforeprint", () => {
  folded.push(...folds.filter((fold) => !fold.open));
  for (const fold of folded) fold.open = true;
});
addEventListener("afterprint", () => {
  for (const fold of folded) fold.open = false;
  folded = [];
});
