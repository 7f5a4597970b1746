package disk

import (
	"errors"
	"os"
	"os/exec"
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

// cannot ends a test on a system that lacks links or pipes; where CI=true says that it has them it fails.
func cannot(t *testing.T, err error) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatal(err)
	}
	t.Skip(err)
}

// What has taken the place of a page, and holds the same, is no page: after a run a plain file stands there, with the rights that a new one has. That umasks
// count is in the comparison itself: what the run makes first tells the rights.
func TestWhatOnlyLooksLikeAPageIsWrittenAgain(t *testing.T) {
	const name = "same.html"
	for what, put := range map[string]func(t *testing.T, page string){
		"link to a copy": func(t *testing.T, page string) {
			elsewhere := filepath.Join(t.TempDir(), name)
			if err := os.Rename(page, elsewhere); err != nil {
				t.Fatal(err)
			}
			if err := os.Symlink(elsewhere, page); err != nil {
				cannot(t, err)
			}
		},
		"pipe": func(t *testing.T, page string) {
			if err := os.Remove(page); err != nil {
				t.Fatal(err)
			}
			if err := exec.Command("mkfifo", page).Run(); err != nil {
				cannot(t, err)
			}
		},
		"other rights": func(t *testing.T, page string) {
			if err := os.Chmod(page, 0o600); err != nil {
				t.Fatal(err)
			}
		},
	} {
		t.Run(what, func(t *testing.T) {
			dir, site := journalIn(t)
			mustWrite(t, site, dir, oldSite)
			page := filepath.Join(site, name)
			fresh, err := os.Lstat(page)
			if err != nil {
				t.Fatal(err)
			}
			put(t, page)
			var summary Summary
			ended := make(chan error, 1)
			go func() {
				var err error
				summary, err = Write(site, dir, func(sink render.Sink) error {
					sink.(render.Keeper).Kept(name)
					return pages(oldSite)(sink)
				})
				ended <- err
			}()
			select {
			case err := <-ended:
				if err != nil {
					t.Fatal(err)
				}
			case <-time.After(time.Minute):
				t.Fatal("it waits for ever")
			}
			info, err := os.Lstat(page)
			if err != nil {
				t.Fatal(err)
			}
			if info.Mode() != fresh.Mode() || !isWhole(t, site, oldSite) || summary.Pages != len(oldSite) {
				t.Errorf("%v, where a new file is %v; %v", info.Mode(), fresh.Mode(), filesBelow(t, site))
			}
		})
	}
}

// A mark that is a pipe or a link is no mark of ours: the run says so, and neither waits nor takes anything away.
func TestAMarkThatIsNoFile(t *testing.T) {
	for what, put := range map[string]func(mark string) error{
		"pipe": func(mark string) error { return exec.Command("mkfifo", mark).Run() },
		"link": func(mark string) error { return os.Symlink("index.html", mark) },
	} {
		t.Run(what, func(t *testing.T) {
			dir, site := journalIn(t)
			mustWrite(t, site, dir, oldSite)
			mark := filepath.Join(site, ".locknut")
			if err := os.Remove(mark); err != nil {
				t.Fatal(err)
			}
			if err := put(mark); err != nil {
				cannot(t, err)
			}
			ended := make(chan error, 1)
			go func() {
				_, err := Write(site, dir, pages(newSite))
				ended <- err
			}()
			select {
			case err := <-ended:
				if err == nil {
					t.Error("a site was written")
				}
			case <-time.After(time.Minute):
				t.Fatal("it waits for ever")
			}
			if text, err := os.ReadFile(filepath.Join(site, "index.html")); err != nil || string(text) != oldSite["index.html"] {
				t.Errorf("index.html: %q, %v", text, err)
			}
		})
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
