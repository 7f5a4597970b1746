package photo

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
)

type kind uint8

const (
	jpegFile kind = 1 + iota
	pngFile
	gifFile
)

// endings returns those that pictures made of such a file may have.
func (k kind) endings() []string {
	switch k {
	case pngFile:
		return []string{".jpg", ".png"}
	case gifFile:
		return []string{".png"}
	}
	return []string{".jpg"}
}

// size is that of a picture as it is shown.
type size struct{ width, height int }

// head is what a file says of its picture before the pixels.
type head struct {
	kind        kind
	stored      size // as the rows of the file have it
	orientation int  // 1 to 8, as in Exif: how the rows lie in the picture
	profile     []byte
}

var errNoPicture = errors.New("it is no JPEG, PNG or GIF picture")

// CheckBytes returns why a file of so many bytes is refused, in words that go on from its name; nil where it isn't.
func CheckBytes(size int64) error {
	if size > MaxBytes {
		return fmt.Errorf("it has %d bytes, more than %d MB", size, MaxBytes/1_000_000)
	}
	return nil
}

func checkPixels(config image.Config) error {
	switch {
	case config.Width < 1 || config.Height < 1:
		return fmt.Errorf("it is %d × %d pixels: there is nothing to see", config.Width, config.Height)
	case int64(config.Width)*int64(config.Height) > MaxPixels:
		return fmt.Errorf("it is %d × %d pixels, more than %d megapixels", config.Width, config.Height, MaxPixels/1_000_000)
	}
	return nil
}

// readHead reads the head of a file. Its errors are reasons to refuse the file.
func readHead(content []byte) (head, error) {
	if err := CheckBytes(int64(len(content))); err != nil {
		return head{}, err
	}
	h := head{orientation: 1}
	var config image.Config
	var err error
	switch {
	case bytes.HasPrefix(content, []byte("\xff\xd8")):
		h.kind = jpegFile
		config, err = jpeg.DecodeConfig(bytes.NewReader(content))
	case bytes.HasPrefix(content, []byte("\x89PNG\r\n\x1a\n")):
		h.kind = pngFile
		config, err = png.DecodeConfig(bytes.NewReader(content))
	case bytes.HasPrefix(content, []byte("GIF87a")), bytes.HasPrefix(content, []byte("GIF89a")):
		h.kind = gifFile
		config, err = gif.DecodeConfig(bytes.NewReader(content))
	default:
		return head{}, errNoPicture
	}
	if err != nil {
		return head{}, broken(err)
	}
	if err := checkPixels(config); err != nil {
		return head{}, err
	}
	h.stored = size{config.Width, config.Height}
	var exif []byte
	switch h.kind {
	case jpegFile:
		exif, h.profile = jpegTags(content)
	case pngFile:
		exif, h.profile = pngTags(content)
	}
	h.orientation = orientation(exif)
	return h, nil
}

// broken returns the reason that a decoder's error is.
func broken(err error) error {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return errors.New("it is cut off: the file ends before the picture does")
	}
	return fmt.Errorf("it is broken or cut off: %w", err)
}

// turned says that rows of the file are columns of the picture.
func (h head) turned() bool { return h.orientation >= 5 }

// sizes returns those of the pictures to make, the widest first.
func (h head) sizes(r Recipe) []size {
	full := h.stored
	if h.turned() {
		full = size{full.height, full.width}
	}
	sizes := []size{full.narrowed(r.Large)}
	if sizes[0].width > r.Small {
		sizes = append(sizes, full.narrowed(r.Small))
	}
	return sizes
}

// narrowed returns the size in the same shape and no wider than that.
func (s size) narrowed(width int) size {
	if s.width <= width {
		return s
	}
	return size{width, max(1, (s.height*width+s.width/2)/s.width)}
}
