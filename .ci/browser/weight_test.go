package browser

import (
	"bytes"
	"compress/gzip"
	"os"
	"path/filepath"
	"regexp"
	"testing"
)

// most is what a page may weigh, packed, its pictures aside: what a phone at a hill with one bar loads in a second.
const most = 60_000

// mostFigure is how many bytes a chart may add to a page, in both of its sizes.
const mostFigure = 30_000

var figure = regexp.MustCompile(`(?s)<figure class="drawing">.*?</figure>`)

// TestWeight weighs every page of the hard journal; the example's are weighed by the tests of the render package.
func TestWeight(t *testing.T) {
	site := compiled(t, stress(t))
	heaviest, weight := "", 0
	figures := 0
	for _, name := range pages(t, site) {
		content, err := os.ReadFile(filepath.Join(site, name))
		if err != nil {
			t.Fatal(err)
		}
		for _, drawing := range figure.FindAll(content, -1) {
			figures++
			if len(drawing) > mostFigure {
				t.Errorf("a chart of %s takes %d bytes", name, len(drawing))
			}
		}
		var packed bytes.Buffer
		w := gzip.NewWriter(&packed)
		if _, err := w.Write(content); err != nil {
			t.Fatal(err)
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		if packed.Len() > weight {
			heaviest, weight = name, packed.Len()
		}
		if packed.Len() > most {
			t.Errorf("%s has %d bytes packed, more than %d", name, packed.Len(), most)
		}
	}
	t.Logf("the heaviest is %s with %d bytes; %d charts", heaviest, weight, figures)
}
