package journal_test

import (
	"bytes"
	"io/fs"
	"os"
	"path"
	"runtime"
	"slices"
	"testing"
	"time"

	"example.org/locknut/journal"
	"example.org/locknut/journal/report"
	"example.org/locknut/render"
)

// TestSameBytes compiles the example on one processor and on eight, from two folders, in two time zones and with its folders listed
// backwards, and wants the same findings, the same values and the same site, byte for byte.
func TestSameBytes(t *testing.T) {
	copied := t.TempDir()
	if err := os.CopyFS(copied, os.DirFS("../example-build")); err != nil {
		t.Fatal(err)
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	zone := time.Local
	defer func() { time.Local = zone }()
	first := everything(t, os.DirFS("../example-build"))
	for _, other := range []struct {
		name       string
		processors int
		zone       *time.Location
		folder     fs.FS
	}{
		{"one processor", 1, zone, os.DirFS("../example-build")},
		{"eight processors", 8, zone, os.DirFS("../example-build")},
		{"another folder", 8, zone, os.DirFS(copied)},
		{"far west", 8, time.FixedZone("west", -11*3600), os.DirFS("../example-build")},
		{"far east", 8, time.FixedZone("east", 14*3600), os.DirFS("../example-build")},
		{"listed backwards", 8, zone, backwards{os.DirFS("../example-build")}},
	} {
		t.Run(other.name, func(t *testing.T) {
			runtime.GOMAXPROCS(other.processors)
			time.Local = other.zone
			same := everything(t, other.folder)
			for name, content := range first {
				if !bytes.Equal(content, same[name]) {
					t.Errorf("%s differs", name)
				}
			}
			if len(same) != len(first) {
				t.Errorf("%d files, want %d", len(same), len(first))
			}
		})
	}
}

// everything compiles a journal and returns all that is made of it, by name.
func everything(t *testing.T, folder fs.FS) map[string][]byte {
	t.Helper()
	r, err := journal.Compile(folder, journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var site render.Memory
	if _, err := render.Site(r, &site); err != nil {
		t.Fatal(err)
	}
	all := map[string][]byte{}
	for _, name := range site.Names() {
		all[path.Join("site", name)] = site.Page(name)
	}
	var findings, values bytes.Buffer
	if err := report.JSON(&findings, r); err != nil {
		t.Fatal(err)
	}
	if err := report.ExportJSON(&values, r, report.ExportOptions{}); err != nil {
		t.Fatal(err)
	}
	all["findings.json"], all["values.json"] = findings.Bytes(), values.Bytes()
	return all
}

// backwards lists its folders in the wrong order.
type backwards struct{ fs.FS }

func (b backwards) ReadDir(name string) ([]fs.DirEntry, error) {
	entries, err := fs.ReadDir(b.FS, name)
	slices.Reverse(entries)
	return entries, err
}
