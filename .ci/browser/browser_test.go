// Package browser looks at the site in a real browser: every page of the example, and a page of each kind of a journal made to be hard
// on pages. It needs headless Chromium (CHROME_PATH), axe-core (AXE_JS) and the program itself (LOCKNUT).
package browser

import (
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	cdpp "github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

func need(t *testing.T, name string) string {
	t.Helper()
	value := os.Getenv(name)
	if value == "" {
		t.Fatalf("%s is not set; .ci/run sets it", name)
	}
	return value
}

// browser starts one headless Chromium.
func browser(t *testing.T) context.Context {
	t.Helper()
	opts := append(slices.Clone(chromedp.DefaultExecAllocatorOptions[:]), chromedp.NoSandbox, chromedp.ExecPath(need(t, "CHROME_PATH")))
	allocator, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	ctx, cancel := chromedp.NewContext(allocator, chromedp.WithErrorf(t.Logf))
	t.Cleanup(func() { cancel(); stop() })
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// compiled compiles a journal with the program and returns the folder of its site.
func compiled(t *testing.T, journal string) string {
	t.Helper()
	out := filepath.Join(t.TempDir(), "site")
	run := exec.Command(need(t, "LOCKNUT"), "compile", journal, "--out", out, "--quiet", "--fail-on", "never")
	if text, err := run.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return out
}

func pages(t *testing.T, site string) []string {
	t.Helper()
	var names []string
	err := fs.WalkDir(os.DirFS(site), ".", func(name string, d fs.DirEntry, err error) error {
		if strings.HasSuffix(name, ".html") {
			names = append(names, name)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

// ofEachKind returns one page of each folder, the longest, and every page at the top.
func ofEachKind(t *testing.T, site string) []string {
	t.Helper()
	longest, size := map[string]string{}, map[string]int64{}
	var names []string
	for _, name := range pages(t, site) {
		info, err := os.Stat(filepath.Join(site, name))
		if err != nil {
			t.Fatal(err)
		}
		folder := filepath.Dir(name)
		if folder == "." {
			names = append(names, name)
		} else if info.Size() > size[folder] {
			longest[folder], size[folder] = name, info.Size()
		}
	}
	for _, name := range longest {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// media sets the colour scheme and the medium.
func media(scheme, medium string) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdpp.Call(ctx, target, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: medium,
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
		return err
	})
}

// tooWide lists what runs off the side of the window, or, on paper, tables that are cut.
const tooWide = `(() => {
  const bad = [];
  if (document.documentElement.scrollWidth > innerWidth) {
    for (const e of document.querySelectorAll('body *')) {
      const r = e.getBoundingClientRect();
      if (r.right > innerWidth + 1 && !e.closest('.scroll, pre, svg')) { bad.push(e.tagName + '.' + e.className + ' ' + Math.round(r.right)); if (bad.length > 3) break; }
    }
    if (!bad.length) bad.push('the page: ' + document.documentElement.scrollWidth);
  }
  return bad;
})()`

const cutOnPaper = `[...document.querySelectorAll('table')].filter(t => { const box = t.closest('.scroll') || t.parentElement; return t.scrollWidth > box.clientWidth + 1 && getComputedStyle(box).overflowX !== 'visible' || t.getBoundingClientRect().right > innerWidth + 1; }).map(t => t.className + ' ' + t.scrollWidth)`

const axeRun = `axe.run(document, {runOnly: {type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']}})
  .then(r => JSON.stringify(r.violations.map(v => v.id + ': ' + v.nodes.length + ' × ' + v.nodes[0].target + ' ' + (v.nodes[0].any[0] || v.nodes[0].all[0] || {message: ''}).message)))`

// TestPages holds every page of the example, and a page of each kind of the hard journal, to what a visitor needs.
func TestPages(t *testing.T) {
	axe, err := os.ReadFile(need(t, "AXE_JS"))
	if err != nil {
		t.Fatal(err)
	}
	ctx := browser(t)
	example, hard := compiled(t, "../../example-build"), compiled(t, stress(t))
	for _, site := range []struct {
		name, folder string
		pages        []string
	}{{"example", example, pages(t, example)}, {"hard", hard, ofEachKind(t, hard)}} {
		server := httptest.NewServer(http.FileServer(http.Dir(site.folder)))
		defer server.Close()
		t.Run(site.name, func(t *testing.T) {
			tab, cancel := chromedp.NewContext(ctx)
			defer cancel()
			tab, stop := context.WithTimeout(tab, 8*time.Minute)
			defer stop()
			watch := watchTab(t, tab, server.URL)
			for _, page := range site.pages {
				look(t, tab, watch, string(axe), server.URL+"/"+page, page)
			}
		})
	}
}

func look(t *testing.T, tab context.Context, watch *watcher, axe, address, page string) {
	t.Helper()
	watch.start()
	if err := chromedp.Do(tab, chromedp.EmulateViewport(320, 800, chromedp.EmulateMobile), media("light", "screen"), chromedp.Navigate(address)); err != nil {
		t.Fatalf("%s: %v", page, err)
	}
	report(t, tab, page+" at 320 px runs off the side", tooWide)
	if err := chromedp.Do(tab, chromedp.EmulateViewport(718, 1000), media("light", "print")); err != nil {
		t.Fatalf("%s: %v", page, err)
	}
	report(t, tab, page+" on paper has a cut table", cutOnPaper)
	if err := chromedp.Do(tab, chromedp.EmulateViewport(1280, 900), media("light", "screen"), chromedp.Evaluate[chromedp.Void](axe)); err != nil {
		t.Fatalf("%s: %v", page, err)
	}
	for _, scheme := range []string{"light", "dark"} {
		if err := chromedp.Do(tab, media(scheme, "screen")); err != nil {
			t.Fatalf("%s: %v", page, err)
		}
		text, err := chromedp.Run(tab, chromedp.Evaluate[string](axeRun, chromedp.EvalAwaitPromise))
		if err != nil {
			t.Fatalf("%s: %v", page, err)
		}
		var violations []string
		if err := json.Unmarshal([]byte(text), &violations); err != nil {
			t.Fatal(err)
		}
		for _, v := range violations {
			t.Errorf("%s, %s: %s", page, scheme, v)
		}
	}
	for _, m := range watch.stop() {
		t.Errorf("%s: %s", page, m)
	}
}

func report(t *testing.T, tab context.Context, what, script string) {
	t.Helper()
	bad, err := chromedp.Run(tab, chromedp.Evaluate[[]string](script))
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	for _, b := range bad {
		t.Errorf("%s: %s", what, b)
	}
}

// TestKeyboard reaches everything on a page of each kind with the Tab key.
func TestKeyboard(t *testing.T) {
	ctx := browser(t)
	site := compiled(t, "../../example-build")
	tab, cancel := chromedp.NewContext(ctx)
	defer cancel()
	tab, stop := context.WithTimeout(tab, 4*time.Minute)
	defer stop()
	for _, page := range ofEachKind(t, site) {
		if err := chromedp.Do(tab, chromedp.EmulateViewport(1280, 900), chromedp.Navigate("file://"+filepath.Join(site, page))); err != nil {
			t.Fatalf("%s: %v", page, err)
		}
		all, err := chromedp.Run(tab, chromedp.Evaluate[int](`(window.reached = new Set(), [...document.querySelectorAll('a[href], input, button, [tabindex="0"], summary')].filter(e => e.getClientRects().length).length)`))
		if err != nil {
			t.Fatal(err)
		}
		for range all + 1 {
			if err := chromedp.Do(tab, chromedp.KeyEvent("\t")); err != nil {
				t.Fatal(err)
			}
			if err := chromedp.Do(tab, chromedp.Evaluate[chromedp.Void](`void window.reached.add(document.activeElement)`)); err != nil {
				t.Fatal(err)
			}
		}
		missed, err := chromedp.Run(tab, chromedp.Evaluate[[]string](`[...document.querySelectorAll('a[href], input, button, [tabindex="0"], summary')].filter(e => e.getClientRects().length && !window.reached.has(e)).map(e => e.outerHTML.slice(0, 90))`))
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range missed {
			t.Errorf("%s: the Tab key never reaches %s", page, m)
		}
	}
}

// watcher gathers what a tab says on its console, and what it asks for elsewhere.
type watcher struct {
	mu       sync.Mutex
	messages []string
}

func (w *watcher) add(format string, args ...any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.messages = append(w.messages, fmt.Sprintf(format, args...))
}

func (w *watcher) start() { w.mu.Lock(); w.messages = nil; w.mu.Unlock() }

func (w *watcher) stop() []string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return slices.Clone(w.messages)
}

// watchTab gathers the messages of a tab's console, and its requests to anywhere but the server of the site.
func watchTab(t *testing.T, tab context.Context, home string) *watcher {
	t.Helper()
	w := &watcher{}
	messages := chromedp.Console(tab)
	requests := chromedp.Events(tab, network.RequestWillBeSent)
	if err := chromedp.Do(tab, chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdpp.Call(ctx, target, network.Enable, network.EnableParams{})
		return err
	})); err != nil {
		t.Fatal(err)
	}
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			w.add("the console says: %s", m)
		}
	}()
	go func() {
		for r, err := range requests {
			if err != nil {
				return
			}
			if u := r.Request.URL; !strings.HasPrefix(u, home) && !strings.HasPrefix(u, "data:") {
				w.add("it asks for %s", u)
			}
		}
	}()
	return w
}
