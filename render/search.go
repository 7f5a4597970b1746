package render

import (
	_ "embed" // the script and the icon
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

//go:embed search.js
var searchScript []byte

//go:embed favicon.svg
var favicon []byte

var searchCrumb = crumb{place{page: "search.html"}, "Search"}

// searchScripts are the files that the page for searching runs: the first holds what can be found. No other page runs any.
var searchScripts = []string{"search-index.js", "search.js"}

// searchSheets are the page for searching and the two files that it runs, the index first.
func (s *site) searchSheets() []sheet {
	return []sheet{
		{searchScripts[0], s.searchIndex},
		{searchScripts[1], func(p *page) { p.bytes = append(p.bytes, searchScript...) }},
		{searchCrumb.at.page, s.searchPage},
	}
}

// searchPage searches the site. It is the one page that needs a script, and says so where there is none.
func (s *site) searchPage(p *page) {
	p.begin(head{title: searchCrumb.title, about: "Search the titles, paths, parts, numbers and open findings of the build.", plate: s.plateStill(), scripts: searchScripts})
	p.put("<noscript>\n<p>This page needs its script, which does not run here. Everything can be reached without it: ")
	for i, c := range []crumb{entriesCrumb, limitsCrumb, partsCrumb, numbersCrumb, warningsCrumb} {
		if i > 0 {
			p.put(", ")
		}
		p.to(c.at, strings.ToLower(c.title))
	}
	p.put(".</p>\n</noscript>\n<div class=\"search\" role=\"search\" id=\"search.box\" hidden=\"\">\n<p><label for=\"search.words\">Words of a title, a path, a part or an open finding</label>\n" +
		"<input type=\"search\" id=\"search.words\" autocomplete=\"off\" autocapitalize=\"none\" spellcheck=\"false\" aria-describedby=\"search.keys\"></p>\n" +
		"<p class=\"aside\" id=\"search.keys\">Arrow keys walk through what is found, Enter opens it, Escape leads back to the words.</p>\n" +
		"<p role=\"status\" id=\"search.count\"></p>\n<ol class=\"entries\" id=\"search.found\"></ol>\n</div>\n")
	p.end()
}

// searchIndex is what can be found, as a script, since a page that is read from a disk may load nothing else. It is a list of groups
// `[kind, before, after, items]`, an item `[name, title, more]`. Its address is before, name, after; a title of 0 is the name again; more is
// left out where there is nothing more to search in.
func (s *site) searchIndex(p *page) {
	list := []any{}
	for _, g := range []searchGroup{
		{"path", "paths/", ".html", s.pathItems()},
		{"part", "parts/", ".html", s.partItems()},
		{"tool", "tools/", ".html", s.toolItems()},
		{"number", "", "", s.numberItems()},
		{"entry", "entries/", ".html", s.entryItems(isDone)},
		{"plan", "entries/", ".html", s.entryItems(isPlan)},
		{"finding", "", "", s.findingItems()},
	} {
		if len(g.items) > 0 {
			list = append(list, []any{g.kind, g.before, g.after, g.items})
		}
	}
	text, err := json.Marshal(list)
	if err != nil {
		panic("lists of texts and numbers can't be written as JSON: " + err.Error())
	}
	p.put("const searchIndex = ")
	p.bytes = append(p.bytes, text...)
	p.put(";\n")
}

// searchGroup is what can be found of one kind.
type searchGroup struct {
	kind, before, after string
	items               [][]any
}

// searchItem is an item of a thing that has a page in a folder of its own.
func searchItem(page, title, more string) []any {
	name := encode(strings.TrimSuffix(page[strings.IndexByte(page, '/')+1:], ".html"))
	return append([]any{name}, searchWords(name, title, more)...)
}

func searchWords(name, title, more string) []any {
	words := []any{title}
	if title == name {
		words[0] = 0
	}
	if more != "" && more != title && more != name {
		words = append(words, more)
	}
	return words
}

func (s *site) pathItems() [][]any {
	titles := map[string]string{}
	for _, l := range s.journal.Limits {
		if s.ShowsLimit(l) && l.Title != "" && titles[l.Path] == "" {
			titles[l.Path] = l.Title
		}
	}
	var items [][]any
	for _, path := range s.paths {
		items = append(items, searchItem(s.pathPages[path], path, titles[path]))
	}
	return items
}

func (s *site) partItems() [][]any {
	var items [][]any
	for _, part := range s.journal.Parts {
		items = append(items, searchItem(s.partPages[part.Name], part.Title, part.Name))
	}
	return items
}

func (s *site) toolItems() [][]any {
	if s.Hides("tools") {
		return nil
	}
	var items [][]any
	for _, tool := range s.journal.Tools {
		items = append(items, searchItem(s.toolPages[tool.Name], tool.Title, tool.Name))
	}
	return items
}

func (s *site) numberItems() [][]any {
	var items [][]any
	for _, n := range s.numbers {
		if at := s.numberPlace(n); at.page != "" {
			items = append(items, append([]any{address(searchCrumb.at.page, at)}, searchWords("", n.Title, n.Path)...))
		}
	}
	return items
}

func isPlan(e *model.Entry) bool { return e.Plan }
func isDone(e *model.Entry) bool { return !e.Plan }

// entryItems are the entries of a kind, the newest first. A day that the page's name begins with is told by that.
func (s *site) entryItems(is func(*model.Entry) bool) [][]any {
	var items [][]any
	for _, e := range slices.Backward(s.Entries) {
		if !is(e) {
			continue
		}
		page, day := s.entryPages[e.Index], ""
		if !e.Date.IsZero() && !strings.HasPrefix(page, "entries/"+e.Date.String()) {
			day = e.Date.String()
		}
		items = append(items, searchItem(page, e.Title, day))
	}
	return items
}

// findingItems are the open findings, the worst first. Those of one rule about one thing are one item.
func (s *site) findingItems() [][]any {
	type about struct{ rule, subject string }
	var items [][]any
	place := map[about]int{}
	alike := map[about]int{}
	for _, f := range s.found.in[source.Open] {
		key := about{f.Rule, f.Subject}
		if alike[key]++; alike[key] > 1 {
			items[place[key]][2] = fmt.Sprintf("%s, %d times: %s", f.Rule, alike[key], f.Subject)
			continue
		}
		place[key] = len(items)
		items = append(items, []any{address(searchCrumb.at.page, s.findingPlace(f)), strings.ReplaceAll(f.Message, "`", ""), f.Rule + ": " + f.Subject})
	}
	return items
}
