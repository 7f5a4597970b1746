package render

import (
	"errors"
	"fmt"
	"io/fs"
	"sync"

	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/model"
	"example.org/locknut/render/photo"
)

// Keeper is a sink that still has the site that it is to replace. Kept returns a file of that as it was written, and whether it is there:
// a picture that was made before need not be made again.
type Keeper interface {
	Kept(name string) ([]byte, bool)
}

// shot is a picture of the site, without its bytes.
type shot struct {
	name          string
	width, height int
}

// shownFiles returns the picture files that published text shows, sorted.
func (s *site) shownFiles() []string {
	if s.Hides("photos") {
		return nil
	}
	seen := map[string]bool{}
	note := func(b *markdown.Body, links []*model.Mention) {
		for _, link := range links {
			if h := &b.Holes[link.Hole]; h.Picture && link.File != "" && link.Broken == "" {
				seen[link.File] = true
			}
		}
	}
	if home := s.journal.Build.Home; home != nil {
		note(home, s.journal.Home)
	}
	for _, e := range s.Entries {
		note(e.Body, e.Links)
	}
	return sorted(seen)
}

// putPhotos makes the pictures of the site and puts them, each as soon as it is made: only their names and sizes are kept. Files that are
// no picture, or too big, are left out; their words stand in the text.
func (s *site) putPhotos(folder fs.FS, sink Sink) error {
	files := s.shownFiles()
	s.photos = make(map[string][]shot, len(files))
	made := make([][]shot, len(files))
	failures := make([]error, len(files))
	once := &putOnce{sink: sink, names: map[string]bool{}}
	next := make(chan int)
	var wait sync.WaitGroup
	for range min(2, len(files)) { // no more are worked on at once
		wait.Go(func() {
			for i := range next {
				made[i], failures[i] = putPhoto(folder, files[i], once)
			}
		})
	}
	for i := range files {
		next <- i
	}
	close(next)
	wait.Wait()
	for i, name := range files {
		if len(made[i]) > 0 {
			s.photos[name] = made[i]
		}
	}
	return errors.Join(failures...)
}

// putPhoto makes and puts the pictures of one file; none, and no error, where nothing can be made of it.
func putPhoto(folder fs.FS, name string, sink *putOnce) ([]shot, error) {
	info, err := fs.Stat(folder, name)
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	if info.Size() > photo.MaxBytes {
		return nil, nil
	}
	content, err := fs.ReadFile(folder, name)
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	var pictures []photo.Made
	reused := false
	if keeper, ok := sink.sink.(Keeper); ok {
		pictures, reused = photo.Reuse(keeper.Kept, name, content, photo.Usual)
	}
	if !reused {
		if pictures, err = photo.Make(name, content, photo.Usual); err != nil {
			return nil, nil // a rule says so where it can be told
		}
	}
	var shots []shot
	for _, m := range pictures {
		if err := sink.put(m); err != nil {
			return nil, fmt.Errorf("put %s: %w", m.Name, err)
		}
		shots = append(shots, shot{m.Name, m.Width, m.Height})
	}
	return shots, nil
}

// putOnce puts pictures: files that are alike, name and all, make the same ones.
type putOnce struct {
	sink  Sink
	mu    sync.Mutex
	names map[string]bool
}

func (o *putOnce) put(m photo.Made) error {
	o.mu.Lock()
	again := o.names[m.Name]
	o.names[m.Name] = true
	o.mu.Unlock()
	if again {
		return nil
	}
	return o.sink.Put(m.Name, m.Content)
}

// picture fills the hole of a picture: with the chart or the photo that it asks for, or with the words that stand in for it.
func (p *page) picture(h *markdown.Hole, link *model.Mention) {
	if h.Scheme == markdown.SchemeChart {
		if link.Broken != "" || !h.Alone || !p.figureOf(p.chartNamed(link.Path, link.Entry), h.Text) {
			p.pictureWords(h, "Chart: ")
		}
		return
	}
	if p.site.Hides("photos") {
		return
	}
	shots := p.site.photos[link.File]
	if len(shots) == 0 {
		p.pictureWords(h, "Picture: ")
		return
	}
	large, small := shots[0], shots[len(shots)-1]
	if !h.Alone {
		p.image(small, h)
		return
	}
	p.put("<figure class=\"photo\">\n<a")
	p.attr("href", address(p.name, place{page: large.name}))
	if h.Text == "" {
		p.attr("aria-label", "The picture, large")
	}
	p.put(">")
	p.image(small, h)
	p.put("</a>\n")
	if h.Title != "" {
		p.element("figcaption", h.Title)
		p.put("\n")
	}
	p.put("</figure>\n")
}

func (p *page) image(s shot, h *markdown.Hole) {
	p.put("<img")
	p.attr("src", address(p.name, place{page: s.name}))
	p.attr("width", decimal(s.width))
	p.attr("height", decimal(s.height))
	p.attr("alt", h.Text)
	p.put(` loading="lazy" decoding="async">`)
}

// pictureWords writes the words that stand in for a picture.
func (p *page) pictureWords(h *markdown.Hole, kind literal) {
	if h.Text == "" {
		return
	}
	open, shut := literal(`<span class="picture">`), literal(`</span>`)
	if h.Alone {
		open, shut = `<p class="picture">`, "</p>\n"
	}
	p.put(open)
	p.put(kind)
	p.text(h.Text)
	p.put(shut)
}

// largeOf is the large picture of a file, for links to it; nowhere for one that is not on the site.
func (s *site) largeOf(file string) place {
	if shots := s.photos[file]; len(shots) > 0 {
		return place{page: shots[0].name}
	}
	return place{}
}
