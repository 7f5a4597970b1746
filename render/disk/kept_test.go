package disk

import (
	"os"
	"path/filepath"
	"testing"

	"example.org/locknut/render"
)

// A file of the site that is to be replaced can be had again, as long as it is what was written then.
func TestWhatIsKeptOfTheOldSite(t *testing.T) {
	dir, site := journalIn(t)
	kept := func(name string) (content string, there bool) {
		_, err := Write(site, dir, func(sink render.Sink) error {
			bytes, ok := sink.(render.Keeper).Kept(name)
			content, there = string(bytes), ok
			return pages(oldSite)(sink)
		})
		if err != nil {
			t.Fatal(err)
		}
		return content, there
	}
	if _, there := kept("index.html"); there {
		t.Error("there is a file before anything was written")
	}
	if content, there := kept("entries/a.html"); !there || content != "old entry" {
		t.Errorf("entries/a.html: %q, %v", content, there)
	}
	for _, name := range []string{"b.html", "../build.toml", ".locknut", ""} {
		if _, there := kept(name); there {
			t.Errorf("there is a file `%s`", name)
		}
	}
	if err := os.WriteFile(filepath.Join(site, "index.html"), []byte("changed by hand"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, there := kept("index.html"); there {
		t.Error("a file that was changed since passes for what was written")
	}
}
