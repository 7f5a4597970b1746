package render

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/url"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
)

// compiled compiles a journal; files are those of a journal in memory, by name.
func compiled(t *testing.T, folder fs.FS) *journal.Result {
	t.Helper()
	result, err := journal.Compile(folder, journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return result
}

func inMemory(files map[string]string) fs.FS {
	folder := fstest.MapFS{}
	for name, text := range files {
		folder[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return folder
}

// rendered renders a journal into memory.
func rendered(t *testing.T, folder fs.FS) *Memory {
	t.Helper()
	var m Memory
	if _, err := Site(compiled(t, folder), &m); err != nil {
		t.Fatal(err)
	}
	return &m
}

// read is what a test sees of a page.
type read struct {
	ids    []string
	links  []string // every href
	images []imageRead
	runs   []string            // every script
	labels []string            // every aria-labelledby
	texts  map[string][]string // text of elements, by name
	faults []string
}

// imageRead is a picture on a page.
type imageRead struct{ src, alt, width, height string }

// void are the elements that HTML closes by itself (WHATWG HTML, 13.1.2, from memory).
var void = regexp.MustCompile(`<((?:meta|link|br|hr|img|input|wbr|area|base|col|embed|source|track)\b[^>]*?)/?>`)

// blocks may not stand in a paragraph (WHATWG HTML, 4.4.1: a p holds phrasing content, from memory).
var blocks = []string{"p", "div", "section", "ul", "ol", "dl", "table", "pre", "h1", "h2", "h3", "h4", "nav", "main"}

// parsed reads a page as strict XML, once void elements are closed: every tag is then closed in its order, and every entity known.
func parsed(content []byte) (*read, error) {
	d := xml.NewDecoder(strings.NewReader(void.ReplaceAllString(string(content), "<$1/>")))
	d.Entity = xml.HTMLEntity
	r := &read{texts: map[string][]string{}}
	type element struct{ name, text string }
	var open []element
	for {
		token, err := d.Token()
		if err == io.EOF {
			return r, nil
		}
		if err != nil {
			return nil, err
		}
		switch token := token.(type) {
		case xml.StartElement:
			name := token.Name.Local
			for _, e := range open {
				if e.name == "a" && name == "a" || e.name == "p" && slices.Contains(blocks, name) {
					r.faults = append(r.faults, fmt.Sprintf("<%s> in <%s>", name, e.name))
				}
			}
			r.attributes(token)
			if name == "title" && slices.ContainsFunc(open, func(e element) bool { return e.name == "svg" }) {
				name = "svg title" // a drawing's own
			}
			open = append(open, element{name: name})
		case xml.EndElement:
			last := open[len(open)-1]
			open = open[:len(open)-1]
			r.texts[last.name] = append(r.texts[last.name], last.text)
		case xml.CharData:
			for i := range open {
				open[i].text += string(token)
			}
		}
	}
}

func (r *read) attributes(token xml.StartElement) {
	isImage := token.Name.Local == "img"
	if isImage {
		var one imageRead
		for _, a := range token.Attr {
			for name, field := range map[string]*string{"src": &one.src, "alt": &one.alt, "width": &one.width, "height": &one.height} {
				if a.Name.Local == name {
					*field = a.Value
				}
			}
		}
		r.images = append(r.images, one)
	}
	for _, a := range token.Attr {
		switch name := a.Name.Local; {
		case name == "id":
			r.ids = append(r.ids, a.Value)
			if a.Value == "" || strings.ContainsAny(a.Value, " \t\n\r\f") {
				r.faults = append(r.faults, fmt.Sprintf("the id %q", a.Value))
			}
		case name == "href":
			r.links = append(r.links, a.Value)
		case name == "aria-labelledby":
			r.labels = append(r.labels, a.Value)
		case name == "src" && isImage:
		case name == "src" && token.Name.Local == "script":
			r.runs = append(r.runs, a.Value)
		case name == "src" || name == "srcset" || name == "style" || name == "poster" || name == "data" || strings.HasPrefix(name, "on"):
			r.faults = append(r.faults, fmt.Sprintf("an attribute %s=%q", name, a.Value))
		}
	}
	if slices.Contains([]string{"iframe", "object", "embed", "form", "base", "style"}, token.Name.Local) {
		r.faults = append(r.faults, "an element <"+token.Name.Local+">")
	}
}

// allRead reads every page of a site and reports those that can't be read.
func allRead(t *testing.T, m *Memory) map[string]*read {
	t.Helper()
	all := map[string]*read{}
	for _, name := range m.Names() {
		if path.Ext(name) != ".html" {
			continue
		}
		r, err := parsed(m.Page(name))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		all[name] = r
	}
	return all
}

// checkSite holds every page of a site to what all pages must be.
func checkSite(t *testing.T, m *Memory) {
	t.Helper()
	all := allRead(t, m)
	for name, drawing := range figures(m) {
		if len(drawing) > mostFigure {
			t.Errorf("%s takes %d bytes", name, len(drawing))
		}
	}
	for name, r := range all {
		for _, fault := range r.faults {
			t.Errorf("%s has %s", name, fault)
		}
		seen := map[string]bool{}
		for _, id := range r.ids {
			if seen[id] {
				t.Errorf("%s gives the id %q twice", name, id)
			}
			seen[id] = true
		}
		for _, id := range r.labels {
			if !seen[id] {
				t.Errorf("%s is labelled by %q, which isn't there", name, id)
			}
		}
		for _, one := range []string{"h1", "title", "main", "header", "footer"} {
			if len(r.texts[one]) != 1 || one != "main" && strings.TrimSpace(r.texts[one][0]) == "" {
				t.Errorf("%s has %d <%s>: %q", name, len(r.texts[one]), one, r.texts[one])
			}
		}
		checkScripts(t, m, name, r)
		text := string(m.Page(name))
		if name == "search.html" {
			text = strings.Replace(text, "; script-src &#39;self&#39;", "", 1)
		}
		for _, part := range []string{`<html lang="en">`, `<meta charset="utf-8">`, `name="viewport"`, `name="description" content="`,
			`<a class="skip" href="#page.content">`, `http-equiv="Content-Security-Policy" content="default-src &#39;none&#39;; style-src &#39;self&#39;; img-src &#39;self&#39;; font-src &#39;self&#39;; connect-src &#39;self&#39;; base-uri &#39;none&#39;; form-action &#39;none&#39;"`} {
			if strings.Count(text, part) != 1 {
				t.Errorf("%s has %d times %s", name, strings.Count(text, part), part)
			}
		}
		for _, one := range r.images {
			if to := path.Join(path.Dir(name), one.src); !strings.HasPrefix(to, "photos/") || m.Page(to) == nil || one.width == "" || one.height == "" {
				t.Errorf("%s has the picture %+v", name, one)
			}
		}
		checkLinks(t, m, all, name)
	}
}

// checkScripts lets one page run scripts, which are files of the site.
func checkScripts(t *testing.T, m *Memory, name string, r *read) {
	t.Helper()
	for i, text := range r.texts["script"] {
		if name != "search.html" || text != "" || len(r.runs) != len(r.texts["script"]) || m.Page(r.runs[i]) == nil {
			t.Errorf("%s runs the script %q of %q", name, text, r.runs)
		}
	}
	if may := strings.Contains(string(m.Page(name)), "script-src"); may != (name == "search.html") {
		t.Errorf("%s may run scripts: %v", name, may)
	}
}

func checkLinks(t *testing.T, m *Memory, all map[string]*read, name string) {
	t.Helper()
	for _, link := range all[name].links {
		u, err := url.Parse(link)
		if err != nil {
			t.Errorf("%s links to %q: %v", name, link, err)
			continue
		}
		if u.Scheme != "" {
			if u.Scheme != "https" && u.Scheme != "http" && u.Scheme != "mailto" {
				t.Errorf("%s links to %q", name, link)
			}
			continue
		}
		if name == "404.html" && strings.HasPrefix(u.Path, "/") {
			continue // it may be shown at any depth, and has its own test
		}
		if u.Host != "" || strings.HasPrefix(u.Path, "/") {
			t.Errorf("%s links to %q, which is not relative", name, link)
		}
		to := name
		if u.Path != "" {
			to = path.Join(path.Dir(name), u.Path)
		}
		if m.Page(to) == nil {
			t.Errorf("%s links to %q: there is no page %s", name, link, to)
			continue
		}
		if u.Fragment != "" && (all[to] == nil || !slices.Contains(all[to].ids, u.Fragment)) {
			t.Errorf("%s links to %q: %s has no such id", name, link, to)
		}
	}
}

// journals are the journals of this project that may have a site.
func journals(t *testing.T) []string {
	t.Helper()
	names := []string{"../example-build", "../testdata/mistakes"}
	inside, err := fs.Glob(os.DirFS("../testdata/mistakes"), "*/build.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range inside {
		names = append(names, path.Join("../testdata/mistakes", path.Dir(name)))
	}
	return names
}

// siteless are the journals that make no site, with what is said of each.
var siteless = map[string]string{
	"format-newer":     "build.toml has format 99; this program reads format 1",
	"build-unreadable": "build.toml can't be read",
	"hide-unknown":     "`hide` does not know `prices`",
}

func TestEveryPageOfEveryJournal(t *testing.T) {
	made := 0
	for _, name := range journals(t) {
		t.Run(path.Base(name), func(t *testing.T) {
			var m Memory
			result, err := journal.Compile(os.DirFS(name), journal.Options{})
			if err == nil {
				_, err = Site(result, &m)
			}
			if why, none := siteless[path.Base(name)]; none {
				if err == nil || !strings.Contains(err.Error(), why) || len(m.Names()) != 0 {
					t.Errorf("error %v, and %d pages; want none, since %s", err, len(m.Names()), why)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			made++
			checkSite(t, &m)
		})
	}
	if all := len(journals(t)); made != all-len(siteless) {
		t.Errorf("%d of %d journals have a site, and %d are to have none", made, all, len(siteless))
	}
}

func TestTheSiteIsTheSameOnOneProcessorAndOnEight(t *testing.T) {
	for _, name := range []string{"../example-build", "../testdata/mistakes"} {
		sites := [2]*Memory{}
		for i, n := range []int{1, 8} {
			atProcessors(n, func() { sites[i] = rendered(t, os.DirFS(name)) })
		}
		if !slices.Equal(sites[0].Names(), sites[1].Names()) {
			t.Fatalf("%s: pages\n%q\nand\n%q", name, sites[0].Names(), sites[1].Names())
		}
		for _, page := range sites[0].Names() {
			if string(sites[0].Page(page)) != string(sites[1].Page(page)) {
				t.Errorf("%s: %s differs", name, page)
			}
		}
	}
}

type brokenSink struct{ after int }

var errSink = errors.New("no room")

func (s *brokenSink) Put(name string, content []byte) error {
	if s.after--; s.after < 0 {
		return errSink
	}
	return nil
}

func TestASinkThatFailsEndsTheRendering(t *testing.T) {
	result := compiled(t, os.DirFS("../example-build"))
	for _, after := range []int{0, 1, 17} {
		var err error
		atProcessors(1, func() { _, err = Site(result, &brokenSink{after}) })
		if !errors.Is(err, errSink) {
			t.Errorf("after %d pages: %v", after, err)
		}
	}
}
