package browser

import (
	"bytes"
	"compress/gzip"
	"os"
	"path/filepath"
	"testing"
)

// most is what a page may weigh, packed, its pictures aside: what a phone at a hill with one bar loads in a second.
const most = 60_000

// TestWeight weighs every page of the hard journal; the example's are weighed by the tests of the render package.
func TestWeight(t *testing.T) {
	site := compiled(t, stress(t))
	heaviest, weight := "", 0
	for _, name := range pages(t, site) {
		content, err := os.ReadFile(filepath.Join(site, name))
		if err != nil {
			t.Fatal(err)
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
	t.Logf("the heaviest is %s with %d bytes", heaviest, weight)
}
