//go:build unix

package disk

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"example.org/locknut/render"
)

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
				t.Fatal(err)
			}
		},
		"pipe": func(t *testing.T, page string) {
			if err := os.Remove(page); err != nil {
				t.Fatal(err)
			}
			if err := exec.Command("mkfifo", page).Run(); err != nil {
				t.Fatal(err)
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
				t.Fatal(err)
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
