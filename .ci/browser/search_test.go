package browser

import (
	"context"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	cdpp "github.com/chromedp/cdproto/cdp"
)

// found tells what the page for searching shows: what is found, and what is said of it.
const found = `(async () => {
  await new Promise((done) => setTimeout(done, 400));
  return [document.getElementById("search.count").textContent, ...[...document.querySelectorAll("[id='search.found'] li")].map((li) => li.textContent)];
})()`

// TestSearch searches the example from a server and from a disk, by keyboard alone.
func TestSearch(t *testing.T) {
	ctx := browser(t)
	site := compiled(t, "../../example-build")
	server := httptest.NewServer(http.FileServer(http.Dir(site)))
	defer server.Close()
	for _, home := range []string{server.URL, "file://" + filepath.ToSlash(site)} {
		tab, cancel := chromedp.NewContext(ctx)
		defer cancel()
		tab, stop := context.WithTimeout(tab, time.Minute)
		defer stop()
		watch := watchTab(t, tab, home)
		if err := chromedp.Do(tab, chromedp.EmulateViewport(1280, 900), chromedp.Navigate(home+"/search.html")); err != nil {
			t.Fatal(err)
		}
		for _, c := range []struct{ words, said, first string }{
			{"lash.int", "", "lash.intake"},         // a path's beginning comes first
			{"hill CAMSHAFT", "", "Hill camshaft"},  // whatever the capitals
			{"camshàft híll", "", "Hill camshaft"},  // the accents, and the order
			{"2026-04-18", "", "entry, 2026-04-18"}, // a day
			{"zzz", "Nothing is found.", ""},
			{"", "", ""},
		} {
			clear := chromedp.Evaluate[chromedp.Void](`(() => { const i = document.getElementById("search.words"); i.focus(); i.value = ""; i.dispatchEvent(new Event("input")); })()`)
			if err := chromedp.Do(tab, clear); err != nil {
				t.Fatal(err)
			}
			if c.words != "" {
				if err := chromedp.Do(tab, chromedp.KeyEvent(c.words)); err != nil {
					t.Fatal(err)
				}
			}
			got, err := chromedp.Run(tab, chromedp.Evaluate[[]string](found, chromedp.EvalAwaitPromise))
			if err != nil {
				t.Fatal(err)
			}
			switch {
			case c.first == "" && (len(got) != 1 || got[0] != c.said):
				t.Errorf("%s: %q shows %q", home, c.words, got)
			case c.first != "" && (len(got) < 2 || !strings.Contains(got[1], c.first) || !strings.HasSuffix(got[0], "found.")):
				t.Errorf("%s: %q shows %.300q, wanted %q first", home, c.words, got, c.first)
			}
		}
		walk(t, tab, home)
		for _, m := range watch.stop() {
			t.Errorf("%s: %s", home, m)
		}
	}
}

// walk goes down the list and back, opens what is found first, and comes back to the same words.
func walk(t *testing.T, tab context.Context, home string) {
	t.Helper()
	at := func(what, want string) {
		t.Helper()
		got, err := chromedp.Run(tab, chromedp.Evaluate[string](`document.activeElement.id || document.activeElement.textContent`))
		if err != nil || !strings.Contains(got, want) {
			t.Errorf("%s: %s, the focus is on %q, wanted %q; %v", home, what, got, want, err)
		}
	}
	press := func(keys string) {
		t.Helper()
		if err := chromedp.Do(tab, chromedp.KeyEvent(keys)); err != nil {
			t.Fatal(err)
		}
	}
	press("cam")
	const down, up, escape = "\u0301", "\u0304", "\u001b"
	press(down)
	at("one down", "cam")
	press(down)
	press(up)
	press(up)
	at("back up", "search.words")
	press(down)
	press(escape)
	at("after Escape", "search.words")
	press("\r")
	address := func() string {
		time.Sleep(700 * time.Millisecond) // for the page to come
		got, err := chromedp.Run(tab, chromedp.Evaluate[string](`location.href`))
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	if got := address(); strings.Contains(got, "search.html") || !strings.HasPrefix(got, home) {
		t.Errorf("%s: Enter leads to %s", home, got)
	}
	if err := chromedp.Do(tab, chromedp.Evaluate[chromedp.Void](`void setTimeout(() => history.back(), 50)`)); err != nil {
		t.Fatal(err)
	}
	u, err := url.Parse(address())
	if err != nil || u.Fragment != "cam" {
		t.Errorf("%s: the way back leads to %v", home, u)
	}
	got, err := chromedp.Run(tab, chromedp.Evaluate[[]string](found, chromedp.EvalAwaitPromise))
	if err != nil || len(got) < 2 {
		t.Errorf("%s: the way back shows %q; %v", home, got, err)
	}
}

// TestSearchWithoutScripts leaves words that say what to do instead, and nothing that does nothing.
func TestSearchWithoutScripts(t *testing.T) {
	ctx := browser(t)
	site := compiled(t, "../../example-build")
	tab, cancel := chromedp.NewContext(ctx)
	defer cancel()
	tab, stop := context.WithTimeout(tab, time.Minute)
	defer stop()
	off := chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdpp.Call(ctx, target, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
		return err
	})
	if err := chromedp.Do(tab, off, chromedp.Navigate("file://"+filepath.ToSlash(site)+"/search.html")); err != nil {
		t.Fatal(err)
	}
	got, err := chromedp.Run(tab, chromedp.Evaluate[string](`document.querySelector("main").innerText`))
	if err != nil || !strings.Contains(got, "needs its script") || strings.Contains(got, "Words of") {
		t.Errorf("without scripts the page says %q; %v", got, err)
	}
}
