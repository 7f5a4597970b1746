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

// What stands where a run stages, and no run left there, is the builder's: nothing is touched.
func TestStrangersBesideTheTargetAreLeftAlone(t *testing.T) {
	for _, suffix := range []string{".new", ".before"} {
		for _, isFile := range []bool{false, true} {
			dir, site := journalIn(t)
			stranger := filepath.Join(filepath.Dir(site), "."+filepath.Base(site)+suffix)
			name := stranger
			if !isFile {
				if err := os.Mkdir(stranger, 0o755); err != nil {
					t.Fatal(err)
				}
				name = filepath.Join(stranger, "thesis.txt")
			}
			if err := os.WriteFile(name, []byte("years of work"), 0o644); err != nil {
				t.Fatal(err)
			}
			if _, err := Write(site, dir, pages(newSite)); err == nil {
				t.Errorf("%s, a file: %v: a site was written", suffix, isFile)
			}
			if text, err := os.ReadFile(name); err != nil || string(text) != "years of work" {
				t.Errorf("%s, a file: %v: %q, %v", suffix, isFile, text, err)
			}
			if _, err := os.Lstat(site); err == nil {
				t.Errorf("%s, a file: %v: there is a site", suffix, isFile)
			}
		}
	}
}
