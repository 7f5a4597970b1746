package disk

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/locknut/render"
)

// journalIn makes a journal's folder and returns it with the place of its site.
func journalIn(t *testing.T) (dir, site string) {
	t.Helper()
	dir = t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "build.toml"), []byte("title = \"x\"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	return dir, filepath.Join(dir, "site")
}

func pages(all map[string]string) func(render.Sink) error {
	return func(sink render.Sink) error {
		for _, name := range slices.Sorted(maps.Keys(all)) {
			if err := sink.Put(name, []byte(all[name])); err != nil {
				return err
			}
		}
		return nil
	}
}

var (
	oldSite = map[string]string{"index.html": "old home", "entries/a.html": "old entry", "gone.html": "was here", "same.html": "as ever"}
	newSite = map[string]string{"index.html": "new home", "entries/a.html": "new entry", "entries/b.html": "another", "paths/x.html": "a path", "same.html": "as ever"}
)

// filesBelow reads a folder whole; a folder that isn't there holds nothing.
func filesBelow(t *testing.T, folder string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(folder, func(name string, d fs.DirEntry, err error) error {
		if errors.Is(err, fs.ErrNotExist) {
			return nil
		}
		if err != nil || d.IsDir() {
			return err
		}
		below, _ := filepath.Rel(folder, name)
		below = filepath.ToSlash(below)
		if d.Type()&fs.ModeSymlink != 0 {
			all[below], err = os.Readlink(name)
			return err
		}
		text, err := os.ReadFile(name)
		all[below] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// isWhole reports whether a folder holds exactly a site and a mark that fits it.
func isWhole(t *testing.T, folder string, want map[string]string) bool {
	t.Helper()
	got := filesBelow(t, folder)
	var mark strings.Builder
	for _, name := range slices.Sorted(maps.Keys(want)) {
		fmt.Fprintf(&mark, "%x  %s\n", sha256.Sum256([]byte(want[name])), name)
	}
	if got[".locknut"] != mark.String() {
		return false
	}
	delete(got, ".locknut")
	return maps.Equal(got, want)
}

// beside lists what stands beside the site, but for the journal's own file.
func beside(t *testing.T, dir string) []string {
	t.Helper()
	all, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, d := range all {
		if d.Name() != "site" && d.Name() != "build.toml" {
			names = append(names, d.Name())
		}
	}
	return names
}

func mustWrite(t *testing.T, site, dir string, all map[string]string) Summary {
	t.Helper()
	summary, err := Write(site, dir, pages(all))
	if err != nil {
		t.Fatal(err)
	}
	return summary
}

func TestASiteIsWrittenAndReplaced(t *testing.T) {
	dir, site := journalIn(t)
	if got := mustWrite(t, site, dir, oldSite); got.Pages != 4 || got.Bytes != int64(len("old homeold entrywas hereas ever")) || got.Left != "" {
		t.Errorf("summary of the first run: %+v", got)
	}
	if !isWhole(t, site, oldSite) {
		t.Errorf("after the first run: %v", filesBelow(t, site))
	}
	mustWrite(t, site, dir, newSite)
	if !isWhole(t, site, newSite) {
		t.Errorf("after the second run: %v", filesBelow(t, site))
	}
	if left := beside(t, dir); left != nil {
		t.Errorf("left beside the site: %q", left)
	}
}

// The mark is in the form of the checksum program of the system, which is asked here where there is one.
func TestTheMarkIsReadBySha256sum(t *testing.T) {
	dir, site := journalIn(t)
	mustWrite(t, site, dir, newSite)
	program, err := exec.LookPath("sha256sum")
	if err != nil {
		t.Log("no sha256sum here; the digests are compared by crypto/sha256 alone")
		if !isWhole(t, site, newSite) {
			t.Error("the mark does not fit the site")
		}
		return
	}
	check := exec.Command(program, "--check", "--strict", ".locknut")
	check.Dir = site
	if out, err := check.CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}

func TestAnEmptyFolderIsTaken(t *testing.T) {
	dir, site := journalIn(t)
	if err := os.Mkdir(site, 0o755); err != nil {
		t.Fatal(err)
	}
	mustWrite(t, site, dir, newSite)
	if !isWhole(t, site, newSite) {
		t.Errorf("%v", filesBelow(t, site))
	}
}

func TestTargetsThatAreRefused(t *testing.T) {
	put := func(t *testing.T, name, text string) {
		t.Helper()
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	cases := []struct {
		name   string
		target func(t *testing.T, dir, site string) string
		says   string
	}{
		{"a folder with a stranger's file", func(t *testing.T, dir, site string) string {
			put(t, filepath.Join(site, "thesis.txt"), "ten years of work")
			return site
		}, "thesis.txt"},
		{"a folder with a stranger's folder", func(t *testing.T, dir, site string) string {
			if err := os.MkdirAll(filepath.Join(site, "letters"), 0o755); err != nil {
				t.Fatal(err)
			}
			return site
		}, "letters"},
		{"a site that somebody has put a file into", func(t *testing.T, dir, site string) string {
			mustWrite(t, site, dir, oldSite)
			put(t, filepath.Join(site, ".git", "HEAD"), "ref")
			return site
		}, ".git/HEAD"},
		{"a mark that lists nothing", func(t *testing.T, dir, site string) string {
			put(t, filepath.Join(site, ".locknut"), "")
			put(t, filepath.Join(site, "letter.txt"), "dear")
			return site
		}, "letter.txt"},
		{"the journal itself", func(t *testing.T, dir, site string) string { return dir }, "journal itself"},
		{"the folder above the journal", func(t *testing.T, dir, site string) string { return filepath.Dir(dir) }, "journal itself"},
		{"the root", func(t *testing.T, dir, site string) string { return string(filepath.Separator) }, "can't be"},
		{"a folder below a site", func(t *testing.T, dir, site string) string {
			other := filepath.Join(dir, "other")
			mustWrite(t, other, dir, oldSite)
			return filepath.Join(other, "entries", "again")
		}, "other, which is for a site of its own"},
		{"a folder below the site's usual place", func(t *testing.T, dir, site string) string {
			put(t, filepath.Join(site, "x", "thesis.txt"), "ten years of work")
			return filepath.Join(site, "again")
		}, "site, which is for a site of its own"},
		{"a file", func(t *testing.T, dir, site string) string { put(t, site, "text"); return site }, "is a file"},
		{"a link to a folder", func(t *testing.T, dir, site string) string {
			if err := os.Symlink(t.TempDir(), site); err != nil {
				t.Fatal(err)
			}
			return site
		}, "is a link"},
		{"a link to nothing", func(t *testing.T, dir, site string) string {
			if err := os.Symlink(filepath.Join(dir, "nowhere"), site); err != nil {
				t.Fatal(err)
			}
			return site
		}, "is a link"},
		{"a folder in one that isn't there", func(t *testing.T, dir, site string) string { return filepath.Join(dir, "no", "site") }, "folder above"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			dir, site := journalIn(t)
			target := c.target(t, dir, site)
			was := filesBelow(t, dir)
			_, err := Write(target, dir, func(render.Sink) error { t.Error("the site was made for nothing"); return nil })
			if err == nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("error %v, wanted one with %q", err, c.says)
			}
			if now := filesBelow(t, dir); !maps.Equal(was, now) {
				t.Errorf("files were\n%q\nand are\n%q", was, now)
			}
		})
	}
}

func TestFileManagersLitterIsNoReasonToRefuse(t *testing.T) {
	dir, site := journalIn(t)
	mustWrite(t, site, dir, oldSite)
	if err := os.WriteFile(filepath.Join(site, ".DS_Store"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	mustWrite(t, site, dir, newSite)
	if !isWhole(t, site, newSite) {
		t.Errorf("%v", filesBelow(t, site))
	}
}

func TestNamesThatAreNoPages(t *testing.T) {
	for _, name := range []string{"", ".", "/index.html", "../index.html", "a/../../b", "a//b", ".locknut", "a\nb", `a\b`} {
		dir, site := journalIn(t)
		mustWrite(t, site, dir, oldSite)
		_, err := Write(site, dir, func(sink render.Sink) error { return sink.Put(name, []byte("x")) })
		if err == nil || !isWhole(t, site, oldSite) || beside(t, dir) != nil {
			t.Errorf("page named %q: error %v, left %q", name, err, beside(t, dir))
		}
	}
	dir, site := journalIn(t)
	_, err := Write(site, dir, func(sink render.Sink) error {
		return errors.Join(sink.Put("a.html", nil), sink.Put("a.html", nil))
	})
	if err == nil || !strings.Contains(err.Error(), "two pages") {
		t.Errorf("a name put twice: %v", err)
	}
}

func TestAMakerThatFailsLeavesTheOldSite(t *testing.T) {
	dir, site := journalIn(t)
	mustWrite(t, site, dir, oldSite)
	out := errors.New("out of paper")
	_, err := Write(site, dir, func(sink render.Sink) error {
		if err := sink.Put("index.html", []byte("half")); err != nil {
			t.Error(err)
		}
		return out
	})
	if !errors.Is(err, out) || !isWhole(t, site, oldSite) || beside(t, dir) != nil {
		t.Errorf("error %v, site %q, left %q", err, filesBelow(t, site), beside(t, dir))
	}
}

var errInjected = errors.New("injected")

// failing is a system whose n-th call that changes the disk fails; with death every one after it too, as if the program had been ended. It
// counts the calls.
func failing(n int, death, noSwap bool, calls *int) system {
	*calls = 0
	return system{ahead: func(call, name string) error {
		*calls++
		switch {
		case *calls == n || death && n > 0 && *calls > n:
			return fmt.Errorf("%s %s: %w", call, filepath.Base(name), errInjected)
		case noSwap && call == "swap":
			return errors.ErrUnsupported
		}
		return nil
	}}
}

// Each call of a run fails in turn, once alone and once for good. The target is then the old site or the new one, whole, and the next run
// puts everything right.
func TestAnyCallMayFail(t *testing.T) {
	for _, had := range []bool{true, false} {
		for _, noSwap := range []bool{false, true} {
			for _, death := range []bool{false, true} {
				t.Run(fmt.Sprintf("had a site %t, two renames %t, death %t", had, noSwap, death), func(t *testing.T) {
					dir, site := journalIn(t)
					if had {
						mustWrite(t, site, dir, oldSite)
					}
					var all int
					if _, err := failing(0, false, noSwap, &all).site(site, dir, pages(newSite)); err != nil {
						t.Fatal(err)
					}
					if all < 10 {
						t.Fatalf("only %d calls were seen", all)
					}
					for n := 1; n <= all; n++ {
						oneFailure(t, n, had, noSwap, death)
					}
				})
			}
		}
	}
}

func oneFailure(t *testing.T, n int, had, noSwap, death bool) {
	t.Helper()
	dir, site := journalIn(t)
	if had {
		mustWrite(t, site, dir, oldSite)
	}
	var calls int
	_, err := failing(n, death, noSwap, &calls).site(site, dir, pages(newSite))
	if calls < n {
		t.Fatalf("call %d: the run had only %d", n, calls)
	}
	_, missing := os.Stat(site)
	before := had && isWhole(t, site, oldSite) || !had && missing != nil
	after := isWhole(t, site, newSite)
	interrupted := death && noSwap && had && missing != nil && isWhole(t, filepath.Join(dir, ".site.before"), oldSite)
	if !before && !after && !interrupted {
		t.Errorf("call %d: neither the old site nor the new one: %q", n, filesBelow(t, dir))
	}
	if err == nil && !after {
		t.Errorf("call %d: no error, and no new site", n)
	}
	if err != nil && !errors.Is(err, errInjected) {
		t.Errorf("call %d: another error: %v", n, err)
	}
	if err != nil && !death && after && !strings.Contains(err.Error(), "the site is written") {
		t.Errorf("call %d: the new site is there, and the error doesn't say so: %v", n, err)
	}
	died(t, dir)
	if _, err := Write(site, dir, pages(newSite)); err != nil {
		t.Errorf("call %d: the run after: %v", n, err)
	}
	if left := beside(t, dir); !isWhole(t, site, newSite) || left != nil {
		t.Errorf("call %d: after the next run: %q, beside it %q", n, filesBelow(t, site), left)
	}
}

// died makes a lock that was left behind one of a process that is gone: this test's own process lives on.
func died(t *testing.T, dir string) {
	t.Helper()
	name := filepath.Join(dir, ".site.lock")
	if _, err := os.Stat(name); err != nil {
		return
	}
	if err := os.WriteFile(name, []byte(strconv.Itoa(deadProcess(t))+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
}

var dead int

// deadProcess returns the number of a process that has ended.
func deadProcess(t *testing.T) int {
	t.Helper()
	if dead == 0 {
		gone := exec.Command(os.Args[0], "-test.run=^$")
		if err := gone.Run(); err != nil {
			t.Fatal(err)
		}
		dead = gone.Process.Pid
	}
	return dead
}

func TestTheOldSiteComesBackAfterAnInterruption(t *testing.T) {
	dir, site := journalIn(t)
	mustWrite(t, site, dir, oldSite)
	if err := os.Rename(site, filepath.Join(dir, ".site.before")); err != nil {
		t.Fatal(err)
	}
	fails := errors.New("nothing to render")
	if _, err := Write(site, dir, func(render.Sink) error { return fails }); !errors.Is(err, fails) {
		t.Errorf("error %v", err)
	}
	if !isWhole(t, site, oldSite) || beside(t, dir) != nil {
		t.Errorf("site %q, beside it %q", filesBelow(t, site), beside(t, dir))
	}
}

func TestLocks(t *testing.T) {
	own := os.Getpid()
	cases := []struct {
		name, lock, says string
	}{
		{"of a live process", fmt.Sprintf("%d\n", own), "is writing this site"},
		{"of a live process, with its beginning", holder(own), "is writing this site"},
		{"of a process that is gone", fmt.Sprintf("%d\n", deadProcess(t)), ""},
		{"never finished", "", ""},
		{"of something else", "do not touch\n", "no lock of this program"},
	}
	if beginning(own) != "" {
		cases = append(cases, struct{ name, lock, says string }{"of a process whose number came again", fmt.Sprintf("%d 1\n", own), ""})
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			dir, site := journalIn(t)
			mustWrite(t, site, dir, oldSite)
			name := filepath.Join(dir, ".site.lock")
			if err := os.WriteFile(name, []byte(c.lock), 0o644); err != nil {
				t.Fatal(err)
			}
			_, err := Write(site, dir, pages(newSite))
			if c.says == "" {
				if err != nil || !isWhole(t, site, newSite) || beside(t, dir) != nil {
					t.Errorf("error %v, beside the site %q", err, beside(t, dir))
				}
				return
			}
			text, _ := os.ReadFile(name)
			if err == nil || !strings.Contains(err.Error(), c.says) || !isWhole(t, site, oldSite) || string(text) != c.lock {
				t.Errorf("error %v, lock %q", err, text)
			}
		})
	}
}

func TestTwoRunsAtOnce(t *testing.T) {
	dir, site := journalIn(t)
	_, err := Write(site, dir, func(sink render.Sink) error {
		if _, err := Write(site, dir, pages(oldSite)); err == nil || !strings.Contains(err.Error(), "is writing this site") {
			t.Errorf("the second run: %v", err)
		}
		return pages(newSite)(sink)
	})
	if err != nil || !isWhole(t, site, newSite) {
		t.Errorf("the first run: %v", err)
	}
}

func TestOtherTargets(t *testing.T) {
	dir, _ := journalIn(t)
	out := filepath.Join(t.TempDir(), "public")
	mustWrite(t, out, dir, oldSite)
	mustWrite(t, out+string(filepath.Separator), dir, newSite)
	if !isWhole(t, out, newSite) {
		t.Errorf("%q", filesBelow(t, out))
	}
	if all, err := os.ReadDir(filepath.Dir(out)); err != nil || len(all) != 1 {
		t.Errorf("beside it: %v, %v", all, err)
	}
}
