package photo

import (
	"bytes"
	"cmp"
	"image"
	"image/color"
	"image/draw"
	"image/gif"
	"image/jpeg"
	"image/png"
	"slices"

	"github.com/kovidgoyal/imaging"
)

// decode returns the picture as the rows of the file have it. The decoders are the language's own: those of the scaling library read every
// frame of a film, and run another program where they are at a loss.
func decode(content []byte, h head) (image.Image, error) {
	var p image.Image
	var err error
	switch h.kind {
	case jpegFile:
		p, err = jpeg.Decode(bytes.NewReader(content))
	case pngFile:
		p, err = png.Decode(bytes.NewReader(content))
	case gifFile:
		p, err = gif.Decode(bytes.NewReader(content))
	}
	if err != nil {
		return nil, broken(err)
	}
	if bounds := image.Rect(0, 0, h.stored.width, h.stored.height); p.Bounds() != bounds {
		// The first frame of a GIF may cover a part of its canvas.
		canvas := image.NewNRGBA(bounds)
		draw.Draw(canvas, p.Bounds(), p, p.Bounds().Min, draw.Src)
		p = canvas
	}
	return p, nil
}

// finish returns the picture at its greatest size, upright and in sRGB.
func finish(p image.Image, h head, s size) image.Image {
	if _, ok := p.(*image.CMYK); ok {
		// Four inks become three colours by their profile, not by the rule of thumb that scaling would use.
		p = inSRGB(p, h.profile)
		h.profile = nil
	}
	if h.turned() {
		s = size{s.height, s.width}
	}
	return inSRGB(turn(shrink(p, s), h.orientation), h.profile)
}

// shrink returns the picture at a size, in eight bits and three or four channels.
func shrink(p image.Image, s size) image.Image {
	if p.Bounds().Dx() != s.width || p.Bounds().Dy() != s.height {
		return imaging.Resize(p, s.width, s.height, imaging.CatmullRom)
	}
	if imaging.IsOpaque(p) {
		return imaging.AsNRGB(p)
	}
	return imaging.AsNRGBA(p)
}

// turn returns a picture upright whose rows lie as an orientation says. The library's turns go anticlockwise.
func turn(p image.Image, orientation int) image.Image {
	switch orientation {
	case 2:
		return imaging.FlipH(p)
	case 3:
		return imaging.Rotate180(p)
	case 4:
		return imaging.FlipV(p)
	case 5:
		return imaging.Transpose(p)
	case 6:
		return imaging.Rotate270(p)
	case 7:
		return imaging.Transverse(p)
	case 8:
		return imaging.Rotate90(p)
	}
	return p
}

// maxColours is how many colours a drawing has at most, and a palette.
const maxColours = 256

// isDrawing tells line work, which JPEG would smear, from a photograph: it has few colours, or can be seen through.
func isDrawing(p image.Image) bool {
	if !imaging.IsOpaque(p) {
		return true
	}
	at := func(x, y int) color.RGBA64 { return color.RGBA64Model.Convert(p.At(x, y)).(color.RGBA64) }
	if plain, ok := p.(image.RGBA64Image); ok {
		at = plain.RGBA64At // which spares making a value on the heap for every pixel
	}
	seen := map[color.RGBA]bool{}
	var last color.RGBA
	for y := p.Bounds().Min.Y; y < p.Bounds().Max.Y; y++ {
		for x := p.Bounds().Min.X; x < p.Bounds().Max.X; x++ {
			c := at(x, y)
			if shown := (color.RGBA{uint8(c.R >> 8), uint8(c.G >> 8), uint8(c.B >> 8), 255}); shown != last {
				seen[shown], last = true, shown
			}
		}
		if len(seen) > maxColours {
			return false
		}
	}
	return true
}

// encode returns the file of a picture. Neither encoder writes anything but pixels and what it takes to read them.
func encode(p image.Image, ending string, quality int) ([]byte, error) {
	var b bytes.Buffer
	plain := plainPixels(p)
	if ending == ".jpg" {
		// All is opaque here, so that the two layouts are one; the encoder is fast with this one.
		err := jpeg.Encode(&b, &image.RGBA{Pix: plain.Pix, Stride: plain.Stride, Rect: plain.Rect}, &jpeg.Options{Quality: quality})
		return b.Bytes(), err
	}
	small := png.Encoder{CompressionLevel: png.BestCompression}
	if paletted := withPalette(plain); paletted != nil {
		err := small.Encode(&b, paletted)
		return b.Bytes(), err
	}
	err := small.Encode(&b, plain)
	return b.Bytes(), err
}

// plainPixels returns a copy of the picture as bytes. What can't be seen has no colour, lest something rubbed out be published under it.
func plainPixels(p image.Image) *image.NRGBA {
	plain := image.NewNRGBA(image.Rect(0, 0, p.Bounds().Dx(), p.Bounds().Dy()))
	if three, ok := p.(*imaging.NRGB); ok {
		for y := range plain.Rect.Dy() {
			from, to := three.Pix[y*three.Stride:], plain.Pix[y*plain.Stride:]
			for x := range plain.Rect.Dx() {
				to[4*x], to[4*x+1], to[4*x+2], to[4*x+3] = from[3*x], from[3*x+1], from[3*x+2], 255
			}
		}
		return plain
	}
	draw.Draw(plain, plain.Rect, p, p.Bounds().Min, draw.Src)
	for i := 0; i < len(plain.Pix); i += 4 {
		if plain.Pix[i+3] == 0 {
			clear(plain.Pix[i : i+4])
		}
	}
	return plain
}

// withPalette returns the picture with a palette in a fixed order, or nil where it has too many colours for one.
func withPalette(p *image.NRGBA) *image.Paletted {
	index := map[color.NRGBA]uint8{}
	var colours []color.NRGBA
	for i := 0; i < len(p.Pix); i += 4 {
		c := color.NRGBA{p.Pix[i], p.Pix[i+1], p.Pix[i+2], p.Pix[i+3]}
		if _, known := index[c]; known {
			continue
		}
		if len(colours) == maxColours {
			return nil
		}
		index[c] = 0
		colours = append(colours, c)
	}
	slices.SortFunc(colours, func(a, b color.NRGBA) int {
		return cmp.Or(cmp.Compare(a.A, b.A), cmp.Compare(a.R, b.R), cmp.Compare(a.G, b.G), cmp.Compare(a.B, b.B))
	})
	palette := make(color.Palette, len(colours))
	for i, c := range colours {
		palette[i], index[c] = c, uint8(i)
	}
	paletted := image.NewPaletted(p.Rect, palette)
	for i := range paletted.Pix {
		paletted.Pix[i] = index[color.NRGBA{p.Pix[4*i], p.Pix[4*i+1], p.Pix[4*i+2], p.Pix[4*i+3]}]
	}
	return paletted
}
