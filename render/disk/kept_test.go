package disk

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

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

// A page that is as it was stays the file that it was; one that was changed by hand, even to the same length, is written again; and where a file can
// have one name alone all are written.
func TestAnUnchangedPageStaysTheFileThatItWas(t *testing.T) {
	dir, site := journalIn(t)
	mustWrite(t, site, dir, oldSite)
	stat := func(name string) os.FileInfo {
		t.Helper()
		info, err := os.Stat(filepath.Join(site, name))
		if err != nil {
			t.Fatal(err)
		}
		return info
	}
	same := stat("same.html")
	if err := os.WriteFile(filepath.Join(site, "index.html"), []byte("OLD HOME"), 0o644); err != nil {
		t.Fatal(err)
	}
	mustWrite(t, site, dir, oldSite)
	if !isWhole(t, site, oldSite) {
		t.Fatalf("after the second run: %v", filesBelow(t, site))
	}
	if !os.SameFile(same, stat("same.html")) || !stat("same.html").ModTime().Equal(same.ModTime()) {
		t.Error("an unchanged page is another file")
	}
	if err := os.WriteFile(filepath.Join(site, "index.html"), []byte("new home"), 0o644); err != nil {
		t.Fatal(err)
	}
	later := time.Now().Add(time.Hour)
	if err := os.Chtimes(filepath.Join(site, "index.html"), later, later); err != nil {
		t.Fatal(err)
	}
	if mustWrite(t, site, dir, newSite); !isWhole(t, site, newSite) {
		t.Errorf("after a page was changed by hand to what it will be: %v", filesBelow(t, site))
	}
	same = stat("same.html")
	noLinks := system{ahead: func(call, name string) error {
		if call == "link" {
			return errors.ErrUnsupported
		}
		return nil
	}}
	if _, err := noLinks.site(site, dir, pages(newSite)); err != nil {
		t.Fatal(err)
	}
	if !isWhole(t, site, newSite) || os.SameFile(same, stat("same.html")) {
		t.Errorf("without links: %v", filesBelow(t, site))
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
