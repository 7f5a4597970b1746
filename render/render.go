// Package render makes the site of a journal: pages of plain HTML that link to each other and ask for nothing from outside.
//
// A compiled journal goes in; named pages come out, one at a time, into a [Sink]. It hides the markup, the addresses and what is never
// published. The one invariant: nothing that the builder typed reaches a page unescaped, and nothing that `hide` names reaches one at all.
package render

import (
	"errors"
	"fmt"
	"iter"
	"maps"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"example.org/locknut/journal"
	"example.org/locknut/journal/parallel"
	"example.org/locknut/journal/report"
)

// Sink takes the pages of a site. Put may be called from several goroutines at once; each name comes once, relative, with `/`. The
// content is the sink's only until Put returns. An error ends the rendering.
type Sink interface {
	Put(name string, content []byte) error
}

// LeftOff is a file that a page or a style sheet shows, and of which nothing can be put on the site. It is one that no finding tells of:
// only when its content is read whole does it show.
type LeftOff struct {
	File string // its name in the journal
	Why  string // in words that go on from its name: "it is broken or cut off"
}

// String says it on one line, fit for a terminal.
func (l LeftOff) String() string { return report.OneLine(l.File + ": " + l.Why) }

// Site renders a journal into a sink: pages are made in parallel, each handed over and forgotten. The bytes of a page depend on the
// journal alone. It returns the files that it had to leave off, by name. A journal with a reason not to have a site gives an error before
// anything is put; every other error is the sink's, or that of a picture's file which can't be read.
func Site(result *journal.Result, sink Sink) ([]LeftOff, error) {
	if result.NoSite != "" {
		return nil, errors.New("no site is written: " + result.NoSite)
	}
	s := newSite(result)
	sheets, err := s.allSheets()
	if err != nil {
		return nil, err
	}
	if err := s.putPhotos(result.Folder, sink); err != nil {
		return nil, err
	}
	if err := putAll(s, sheets, sink); err != nil {
		return nil, err
	}
	return s.allLeftOff(), nil
}

// allLeftOff returns the files that are left off, each once: one may be shown by a page and by a style sheet.
func (s *site) allLeftOff() []LeftOff {
	slices.SortFunc(s.leftOff, func(a, b LeftOff) int { return strings.Compare(a.File, b.File) })
	return slices.CompactFunc(s.leftOff, func(a, b LeftOff) bool { return a.File == b.File })
}

// sheet is one file of the site: its name, and what writes it.
type sheet struct {
	name  string
	write func(*page)
}

func putAll(s *site, sheets []sheet, sink Sink) error {
	var failed atomic.Bool
	failures := make([]error, len(sheets))
	parallel.Share(len(sheets), func(tasks iter.Seq[int]) {
		var room []byte
		ids := map[string]bool{}
		for i := range tasks {
			if failed.Load() {
				return
			}
			p := newPage(s, sheets[i].name, room[:0])
			clear(ids)
			p.ids = ids
			sheets[i].write(p)
			if err := sink.Put(p.name, p.bytes); err != nil {
				failures[i] = fmt.Errorf("put %s: %w", p.name, err)
				failed.Store(true)
			}
			room = p.bytes
		}
	})
	for _, err := range failures {
		if err != nil {
			return err
		}
	}
	return nil
}

// Memory is a sink that keeps the pages. The zero value is ready.
type Memory struct {
	mu    sync.Mutex
	pages map[string][]byte
}

// Put keeps a copy of a page. A name that was there before is an error.
func (m *Memory) Put(name string, content []byte) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if _, there := m.pages[name]; there {
		return fmt.Errorf("two pages are named `%s`", name)
	}
	if m.pages == nil {
		m.pages = map[string][]byte{}
	}
	m.pages[name] = slices.Clone(content)
	return nil
}

// Names returns the names of the pages, sorted.
func (m *Memory) Names() []string {
	m.mu.Lock()
	defer m.mu.Unlock()
	return slices.Sorted(maps.Keys(m.pages))
}

// Page returns the content of a page, nil if there is none of that name.
func (m *Memory) Page(name string) []byte {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.pages[name]
}
