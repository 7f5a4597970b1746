package render

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"sync"

	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parallel"
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

// mostPhotos is how many photos are worked on at once, however many processors there are: each takes all its pixels in memory.
const mostPhotos = 2

// putPhotos makes the pictures of the site and puts them, each as soon as it is made: only their names and sizes are kept. Files that are
// no picture, or too big, are left off; their words stand in the text.
func (s *site) putPhotos(folder fs.FS, sink Sink) error {
	files := s.shownFiles()
	s.photos = make(map[string][]shot, len(files))
	made := make([][]shot, len(files))
	refused := make([]error, len(files))
	failures := make([]error, len(files))
	once := &putOnce{sink: sink, names: map[string]bool{}}
	room := make(chan struct{}, mostPhotos)
	parallel.Each(len(files), func(i int) {
		room <- struct{}{}
		defer func() { <-room }()
		made[i], refused[i], failures[i] = putPhoto(folder, files[i], once)
	})
	for i, name := range files {
		switch {
		case len(made[i]) > 0:
			s.photos[name] = made[i]
		case refused[i] != nil && !s.isToldOf(name):
			s.leftOff = append(s.leftOff, LeftOff{name, refused[i].Error()})
		}
	}
	return errors.Join(failures...)
}

// isToldOf reports whether a finding says of a photo that it can't be read: the journal has looked at its head and its end.
func (s *site) isToldOf(name string) bool {
	return slices.ContainsFunc(s.journal.Photos, func(p model.Photo) bool { return p.File.Name == name && p.Reason != "" })
}

// putPhoto makes and puts the pictures of one file. Where nothing can be made of it, it is refused for a reason.
func putPhoto(folder fs.FS, name string, sink *putOnce) (shots []shot, refused, err error) {
	info, err := fs.Stat(folder, name)
	if err != nil {
		return nil, nil, fmt.Errorf("read %s: %w", name, err)
	}
	if err := photo.CheckBytes(info.Size()); err != nil {
		return nil, err, nil
	}
	content, err := fs.ReadFile(folder, name)
	if err != nil {
		return nil, nil, fmt.Errorf("read %s: %w", name, err)
	}
	var pictures []photo.Made
	reused := false
	if keeper, ok := sink.sink.(Keeper); ok {
		pictures, reused = photo.Reuse(keeper.Kept, name, content, photo.Usual)
	}
	if !reused {
		if pictures, err = photo.Make(name, content, photo.Usual); err != nil {
			return nil, err, nil
		}
	}
	for _, m := range pictures {
		if err := sink.put(m); err != nil {
			return nil, nil, fmt.Errorf("put %s: %w", m.Name, err)
		}
		shots = append(shots, shot{m.Name, m.Width, m.Height})
	}
	return shots, nil, nil
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

// picture fills the hole of a picture: with the chart or the photo that it asks for, or with the words that stand in for it, as they do for a
// chart where it would lack the style of the site.
func (p *page) picture(h *markdown.Hole, link *model.Mention) {
	if h.Scheme == markdown.SchemeChart {
		if link.Broken != "" || !h.Alone || p.away || !p.figureOf(p.chartNamed(link.Path, link.Entry), h.Text) {
			p.pictureWords(p.undrawn(h, link), "Chart: ")
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
	p.attr("href", p.address(place{page: large.name}))
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
	p.attr("src", p.address(place{page: s.name}))
	p.attr("width", strconv.Itoa(s.width))
	p.attr("height", strconv.Itoa(s.height))
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
