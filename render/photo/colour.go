package photo

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"

	"github.com/kovidgoyal/imaging"
	"github.com/kovidgoyal/imaging/prism/meta/icc"
)

// maxProfile is the most bytes that a colour profile may have: those of cameras and screens have a few thousand, of printers a million or two.
const maxProfile = 4_000_000

// inSRGB returns the picture with its colours converted from a profile to sRGB, which is what a picture without a profile is shown as. A
// profile that can't be used is left aside, as browsers do, for the picture is worth more than its shade.
func inSRGB(p image.Image, profile []byte) image.Image {
	if !isWhole(profile) {
		return p
	}
	parsed, err := icc.NewProfileReader(bytes.NewReader(profile)).ReadProfile()
	if err != nil {
		return p
	}
	_, cmyk := p.(*image.CMYK)
	if cmyk != (parsed.Header.DataColorSpace == icc.ColorSpaceCMYK) {
		return p
	}
	if parsed.Header.DataColorSpace == icc.ColorSpaceRGB {
		return throughChart(p, parsed)
	}
	converted, err := imaging.ConvertToSRGB(parsed, imaging.Relative, true, p)
	if err != nil {
		return p
	}
	return converted
}

// steps is how many patches the chart has along each colour. Between two of 33 a colour that sRGB has comes out within two levels of 255;
// one that it lacks, and which is clipped, may come out a little paler.
const steps = 33

// throughChart converts a chart of evenly spaced colours, and the picture by what lies between its patches: each pixel by itself takes
// seconds for a photograph, and every telephone puts in a profile.
func throughChart(p image.Image, profile *icc.Profile) image.Image {
	if profile.IsSRGB() {
		return p
	}
	chart := image.NewNRGBA64(image.Rect(0, 0, steps*steps, steps))
	level := func(i int) uint16 { return uint16(i * 0xffff / (steps - 1)) }
	for x := range steps * steps {
		for y := range steps {
			chart.SetNRGBA64(x, y, color.NRGBA64{R: level(x / steps), G: level(x % steps), B: level(y), A: 0xffff})
		}
	}
	converted, err := imaging.ConvertToSRGB(profile, imaging.Relative, true, chart)
	if err != nil {
		return p
	}
	patches, ok := converted.(*image.NRGBA64)
	if !ok {
		return p
	}
	table := make([][3]float32, steps*steps*steps)
	for i := range table {
		c := patches.NRGBA64At(i/steps, i%steps)
		table[i] = [3]float32{float32(c.R) / 257, float32(c.G) / 257, float32(c.B) / 257}
	}
	plain := plainPixels(p)
	for i := 0; i < len(plain.Pix); i += 4 {
		if plain.Pix[i+3] != 0 {
			between(table, plain.Pix[i:i+3])
		}
	}
	return plain
}

// between puts in the place of a colour what the table has there, weighted between the eight nearest patches.
func between(table [][3]float32, rgb []uint8) {
	var low [3]int
	var part [3]float32
	for i, v := range rgb {
		at := int(v) * (steps - 1)
		low[i] = min(at/255, steps-2)
		part[i] = float32(at-low[i]*255) / 255
	}
	base := (low[0]*steps+low[1])*steps + low[2]
	var sum [3]float32
	for corner := range 8 {
		weight, at := float32(1), base
		for i, stride := range [3]int{steps * steps, steps, 1} {
			if corner>>i&1 == 1 {
				weight *= part[i]
				at += stride
			} else {
				weight *= 1 - part[i]
			}
		}
		for i, v := range table[at] {
			sum[i] += weight * v
		}
	}
	for i, v := range sum {
		rgb[i] = uint8(min(v+0.5, 255))
	}
}

// isWhole says that the tags of a profile lie inside it (ICC.1, 7.3), and so do the points of its curves (ICC.1, 10.6): the reader makes
// room for as many as are claimed before it looks.
func isWhole(profile []byte) bool {
	const header, entry = 128, 12
	if len(profile) < header+4 || len(profile) > maxProfile {
		return false
	}
	count := int64(binary.BigEndian.Uint32(profile[header:]))
	start := header + 4 + count*entry
	if start > int64(len(profile)) {
		return false
	}
	for i := range count {
		tag := profile[header+4+i*entry:]
		offset, length := int64(binary.BigEndian.Uint32(tag[4:])), int64(binary.BigEndian.Uint32(tag[8:]))
		if offset < start || offset+length > int64(len(profile)) || !areCurvesWhole(profile[offset:offset+length]) {
			return false
		}
	}
	return true
}

// areCurvesWhole says so of a tag: it may be a curve, or a conversion that holds some.
func areCurvesWhole(tag []byte) bool {
	if kind := tag[:min(4, len(tag))]; string(kind) != "curv" && string(kind) != "mAB " && string(kind) != "mBA " {
		return true
	}
	for {
		at := bytes.Index(tag, []byte("curv"))
		if at < 0 {
			return true
		}
		tag = tag[at:]
		if len(tag) >= 12 && 12+2*int64(binary.BigEndian.Uint32(tag[8:])) > int64(len(tag)) {
			return false
		}
		tag = tag[4:]
	}
}
