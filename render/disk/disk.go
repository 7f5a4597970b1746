// Package disk is the sink that is a folder: a site is written beside its target and then exchanged for it.
//
// What makes the pages goes in; a folder that holds all of them, or the old one untouched, comes out. The one invariant: whatever call fails,
// and wherever the program ends, the target is at every moment a whole site, old or new, or it is not there and the next run brings it back;
// and no folder that this program did not write is ever replaced. A page that is as it was is not written again but named in both folders, as long as
// there are both; no file is ever changed in place. The pages themselves are left to the system to put onto the disk: after a
// power cut the mark, which is put there first, shows which of them never got there, and the next run writes all of them again.
package disk

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"example.org/locknut/journal"
	"example.org/locknut/render"
)

// Summary says what was written.
type Summary struct {
	Pages int    // files of the site, the mark not among them
	Bytes int64  // in them
	Left  string // a folder with the old site that could not be taken away; the next run does it. Empty if there is none
}

// Write has a site made and puts it in the place of the target folder, whole or not at all. The journal's folder, and what is above it,
// can't be a target, nor can a link, a file, a folder in another site, or one that holds anything that an earlier run did not write. The
// folder above the target must be there. Two runs at once are an error for the second. Errors are about the disk, or the maker's own.
func Write(target, journalDir string, build func(render.Sink) error) (Summary, error) {
	return system{}.site(target, journalDir, build)
}

func (s system) site(target, journalDir string, build func(render.Sink) error) (Summary, error) {
	t, err := newTarget(target, journalDir)
	if err != nil {
		return Summary{}, err
	}
	t.system = s
	unlock, err := s.take(t.lock)
	if err != nil {
		return Summary{}, err
	}
	summary, err := t.write(build)
	if e := unlock(); err == nil && e != nil {
		err = fmt.Errorf("the site is written, but its lock stays: %w", e)
	}
	return summary, err
}

// target is the folder that the site goes to, with what stands beside it while it is written.
type target struct {
	system

	folder string // absolute
	staged string // the new site while it is written; after the exchange the old one
	before string // the old site between two renames
	lock   string
}

func newTarget(folder, journalDir string) (*target, error) {
	abs, err := filepath.Abs(folder)
	if err != nil {
		return nil, err
	}
	above, name := filepath.Split(abs)
	if name == "" {
		return nil, fmt.Errorf("%s can't be a site's folder", folder)
	}
	if above, err = filepath.EvalSymlinks(above); err != nil {
		return nil, fmt.Errorf("the folder above the site's: %w", err)
	}
	at := func(suffix string) string { return filepath.Join(above, "."+name+suffix) }
	t := &target{folder: filepath.Join(above, name), staged: at(".new"), before: at(".before"), lock: at(".lock")}
	dir, err := filepath.Abs(journalDir)
	if err != nil {
		return nil, err
	}
	if dir, err = filepath.EvalSymlinks(dir); err != nil {
		return nil, fmt.Errorf("the journal's folder: %w", err)
	}
	if err := t.isApart(dir); err != nil {
		return nil, err
	}
	if err := t.isOutsideSites(dir); err != nil {
		return nil, err
	}
	return t, nil
}

// isOutsideSites refuses a target below a site, or below the usual place of the journal's own: the next run there would find files that it
// did not write.
func (t *target) isOutsideSites(dir string) error {
	usual := filepath.Join(dir, "site")
	for above := filepath.Dir(t.folder); ; above = filepath.Dir(above) {
		_, err := os.Lstat(filepath.Join(above, journal.SiteMark))
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		if err == nil || above == usual {
			return fmt.Errorf("%s is in %s, which is for a site of its own: name a folder outside it", t.folder, above)
		}
		if above == filepath.Dir(above) {
			return nil
		}
	}
}

// isApart refuses a target that is the journal's folder, or above it.
func (t *target) isApart(dir string) error {
	info, err := os.Stat(t.folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	for {
		if other, err := os.Stat(dir); err == nil && os.SameFile(info, other) {
			return fmt.Errorf("%s holds the journal itself: the site needs a folder of its own", t.folder)
		}
		if dir == filepath.Dir(dir) {
			return nil
		}
		dir = filepath.Dir(dir)
	}
}

// check refuses a target that may not be replaced. It returns what is known of the site that is in it.
func (t *target) check() (written, error) {
	info, err := os.Lstat(t.folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return written{}, nil
	case err != nil:
		return written{}, err
	case info.Mode()&fs.ModeSymlink != 0:
		return written{}, fmt.Errorf("%s is a link: name the folder that it leads to", t.folder)
	case !info.IsDir():
		return written{}, fmt.Errorf("%s is a file: the site needs a folder", t.folder)
	}
	ours, err := marked(t.folder)
	if err != nil {
		return written{}, err
	}
	foreign, err := ours.foreignIn(t.folder)
	if err != nil {
		return written{}, err
	}
	if foreign != "" {
		return written{}, fmt.Errorf("%s holds `%s`, which is no part of a site written here: nothing was changed; move it, or name another folder", t.folder, foreign)
	}
	return ours, nil
}

// litter are the files that file managers leave in any folder.
var litter = []string{".DS_Store", "Thumbs.db", "desktop.ini"}

// foreignIn returns the first file in the folder of a mark that the mark does not list; "" if there is none.
func (w written) foreignIn(folder string) (string, error) {
	if w.sums == nil {
		return firstIn(folder)
	}
	foreign := ""
	err := filepath.WalkDir(folder, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		below := filepath.ToSlash(name[len(folder)+1:])
		if _, ours := w.sums[below]; !ours && below != journal.SiteMark && !slices.Contains(litter, d.Name()) {
			foreign = below
			return fs.SkipAll
		}
		return nil
	})
	return foreign, err
}

// firstIn returns the first thing in a folder, litter aside; "" if it is empty.
func firstIn(folder string) (string, error) {
	all, err := os.ReadDir(folder)
	for _, d := range all {
		if !slices.Contains(litter, d.Name()) {
			return d.Name(), err
		}
	}
	return "", err
}

// write recovers what an earlier run left, stages the new site and exchanges it for the old one.
func (t *target) write(build func(render.Sink) error) (Summary, error) {
	if err := t.recover(); err != nil {
		return Summary{}, err
	}
	kept, err := t.check()
	if err != nil {
		return Summary{}, err
	}
	s := &stage{system: t.system, folder: t.staged, old: t.folder, kept: kept, sums: make(map[string][sha256.Size]byte, len(kept.sums)), made: map[string]bool{}}
	err = s.fill(build)
	if err == nil {
		err = t.exchange()
	}
	if err != nil {
		if e := t.removeAll(t.staged); e != nil {
			err = fmt.Errorf("%w; besides, %s could not be taken away: %w", err, t.staged, e)
		}
		return Summary{}, err
	}
	if err := t.flush(filepath.Dir(t.folder)); err != nil {
		return Summary{}, fmt.Errorf("the site is written, but may not outlast a power cut: %w", err)
	}
	summary := Summary{Pages: len(s.sums), Bytes: s.bytes}
	for _, old := range []string{t.staged, t.before} {
		if err := t.removeAll(old); err != nil {
			summary.Left = old
		}
	}
	return summary, nil
}

// recover finishes, or undoes, what a run that died has left: where it took the old site away and put no new one there, the old one
// comes back. A folder of such a name that no run of ours left is never touched.
func (t *target) recover() error {
	for _, left := range []string{t.staged, t.before} {
		if err := isOurs(left); err != nil {
			return err
		}
	}
	_, err := os.Lstat(t.folder)
	if _, e := os.Lstat(t.before); e == nil && errors.Is(err, fs.ErrNotExist) {
		if err := t.rename(t.before, t.folder); err != nil {
			return fmt.Errorf("bring the old site back: %w", err)
		}
	}
	for _, old := range []string{t.staged, t.before} {
		if err := t.removeAll(old); err != nil {
			return fmt.Errorf("take away what an earlier run left: %w", err)
		}
	}
	return nil
}

// unfinished marks a folder that a run is still filling: it has no list of its files yet.
const unfinished = journal.SiteMark + ".unfinished"

// isOurs refuses what stands in the way of staging and was not left there by an earlier run.
func isOurs(left string) error {
	info, err := os.Lstat(left)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if !info.IsDir() {
		return fmt.Errorf("%s is in the way, and no run of ours left it: nothing was changed; move it", left)
	}
	if _, err := os.Lstat(filepath.Join(left, unfinished)); err == nil {
		return nil
	}
	ours, err := marked(left)
	if err != nil {
		return err
	}
	foreign, err := ours.foreignIn(left)
	if err == nil && foreign != "" {
		err = fmt.Errorf("%s holds `%s`, which no run of ours left: nothing was changed; move it", left, foreign)
	}
	return err
}

// exchange puts the staged folder in the place of the target, in one call where the system has one.
func (t *target) exchange() error {
	if _, err := os.Lstat(t.folder); errors.Is(err, fs.ErrNotExist) {
		return t.rename(t.staged, t.folder)
	}
	err := t.swap(t.staged, t.folder)
	if !errors.Is(err, errors.ErrUnsupported) {
		return err
	}
	if err := t.rename(t.folder, t.before); err != nil {
		return err
	}
	err = t.rename(t.staged, t.folder)
	if err == nil {
		return nil
	}
	if e := t.rename(t.before, t.folder); e != nil {
		return fmt.Errorf("%w; the old site stands in %s until the next run: %w", err, t.before, e)
	}
	return err
}

// stage is a site while it is written. It takes pages from several goroutines at once.
type stage struct {
	system
	folder string
	old    string      // the site that is to be replaced
	kept   written     // what is known of it
	mode   fs.FileMode // of the files that this run makes

	mu    sync.Mutex
	sums  map[string][sha256.Size]byte // SHA-256, by name
	made  map[string]bool              // folders below the stage
	bytes int64
}

// fill makes the site, and last of all its mark.
func (s *stage) fill(build func(render.Sink) error) error {
	if err := s.mkdir(s.folder); err != nil {
		return err
	}
	first := filepath.Join(s.folder, unfinished)
	if err := s.writeFile(first, nil); err != nil {
		return err
	}
	if info, err := os.Lstat(first); err == nil { // else no file is of its mode, and all are written
		s.mode = info.Mode()
	}
	if err := build(s); err != nil {
		return err
	}
	mark := filepath.Join(s.folder, journal.SiteMark)
	if err := s.writeFile(mark, s.markText()); err != nil {
		return err
	}
	if err := s.flush(mark); err != nil {
		return err
	}
	if err := s.remove(first); err != nil {
		return err
	}
	return s.flush(s.folder)
}

// markText lists the files of the site with their digests, sorted: what `sha256sum --check` reads.
func (s *stage) markText() []byte {
	names := make([]string, 0, len(s.sums))
	for name := range s.sums {
		names = append(names, name)
	}
	slices.Sort(names)
	var mark []byte
	for _, name := range names {
		sum := s.sums[name]
		mark = append(hex.AppendEncode(mark, sum[:]), "  "+name+"\n"...)
	}
	return mark
}

// Put writes a page.
func (s *stage) Put(name string, content []byte) error {
	if !fs.ValidPath(name) || name == "." || name == journal.SiteMark || strings.ContainsAny(name, "\n\r\\") {
		return fmt.Errorf("`%s` can't be the name of a page", name)
	}
	s.mu.Lock()
	if _, again := s.sums[name]; again {
		s.mu.Unlock()
		return fmt.Errorf("two pages are named `%s`", name)
	}
	s.sums[name] = [sha256.Size]byte{} // until it is known
	s.bytes += int64(len(content))
	folder := path.Dir(name)
	there := folder == "." || s.made[folder]
	s.mu.Unlock()
	if !there {
		if err := s.mkdirAll(filepath.Join(s.folder, filepath.FromSlash(folder))); err != nil {
			return err
		}
		s.mu.Lock()
		s.made[folder] = true
		s.mu.Unlock()
	}
	sum, kept := s.carryOn(name, content)
	if sum == nil {
		worked := sha256.Sum256(content)
		sum = &worked
	}
	s.mu.Lock()
	s.sums[name] = *sum
	s.mu.Unlock()
	if kept {
		return nil
	}
	return s.writeFile(filepath.Join(s.folder, filepath.FromSlash(name)), content)
}
