// Package photo makes the pictures of the site out of the builder's own.
//
// It hides decoders, scalers, colour profiles and tags. The bytes of a JPEG, PNG or GIF file go in; the pictures to publish come out,
// upright, in sRGB and no wider than asked, each with a name that tells its source and recipe. The one invariant: what comes out is
// made of pixels alone. Nothing else of the file is carried over: no place, time, camera, comment, preview or second picture.
package photo

import (
	"errors"
	"fmt"
)

// What is refused, because it would hold up the whole site.
const (
	MaxBytes  = 40_000_000 // of a file
	MaxPixels = 60_000_000 // of a picture
)

// version is part of every name: it goes up when a change here gives other pictures for the same file and recipe.
const version = 1

// benches bounds how many pictures are worked on at once, whoever calls: one of 12 megapixels takes about 100 MB.
var benches = make(chan struct{}, 2)

// Recipe says what is made of a picture. A picture is never enlarged: one narrower than Large keeps its size, and one no wider than
// Small is made once.
type Recipe struct {
	Large   int // greatest width of the large one, in pixels
	Small   int // greatest width of the small one, in pixels; less than Large
	Quality int // of a JPEG, 1 to 100
}

// Usual is the recipe of the site.
var Usual = Recipe{Large: 1600, Small: 480, Quality: 82}

// Made is a picture to publish.
type Made struct {
	Name          string // address from the site's root: `photos/NAME-HASH-WIDTH.jpg` or `.png`
	Width, Height int    // in pixels, as it is shown
	Content       []byte // of the file
}

// Make makes the pictures to publish of one file, the widest first. The name is the file's; its folder and ending are left off. A JPEG
// gives JPEGs. A PNG that is a drawing (no more than 256 colours, or parts that can be seen through) gives PNGs, another one JPEGs. A
// GIF gives PNGs of its first frame.
//
// An error is the reason why nothing can be made, in words that go on from the file's name: it is too big, broken, or no picture. The
// same name, content and recipe give the same bytes, on one kind of processor. No more than two pictures are worked on at once; further
// calls wait.
func Make(name string, content []byte, r Recipe) (made []Made, err error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	h, err := readHead(content)
	if err != nil {
		return nil, err
	}
	benches <- struct{}{}
	defer func() { <-benches }()
	// The bytes may be anybody's, and the decoders have seen only so many: where one trips, that is a reason like any other.
	defer func() {
		if tripped := recover(); tripped != nil {
			made, err = nil, errors.New("it is broken: its content makes no picture")
		}
	}()
	p, err := decode(content, h)
	if err != nil {
		return nil, err
	}
	ending := ".jpg"
	if h.kind == gifFile || h.kind == pngFile && isDrawing(p) {
		ending = ".png"
	}
	p = finish(p, h, h.sizes(r)[0])
	for _, s := range h.sizes(r) {
		p = shrink(p, s)
		m := Made{Name: address(name, content, r, s.width, ending), Width: s.width, Height: s.height}
		if m.Content, err = encode(p, ending, r.Quality); err != nil {
			return nil, fmt.Errorf("it can't be written at %d × %d pixels: %w", s.width, s.height, err)
		}
		made = append(made, m)
	}
	return made, nil
}

func (r Recipe) check() error {
	if r.Small < 1 || r.Large <= r.Small || r.Quality < 1 || r.Quality > 100 {
		return fmt.Errorf("there is no recipe of %d and %d pixels at quality %d", r.Large, r.Small, r.Quality)
	}
	return nil
}
