package disk

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"example.org/locknut/journal"
)

// written is what an earlier run noted of the site that it wrote.
type written struct {
	sums map[string][sha256.Size]byte // of the files, by name; nil where there is no mark
	at   time.Time                    // no file was written later
}

// marked reads the mark of a folder.
func marked(folder string) (written, error) {
	mark, at, err := readPlain(filepath.Join(folder, journal.SiteMark))
	if errors.Is(err, fs.ErrNotExist) {
		return written{}, nil
	}
	if err != nil {
		return written{}, err
	}
	w := written{sums: make(map[string][sha256.Size]byte, bytes.Count(mark, []byte("\n"))), at: at}
	for line := range strings.Lines(string(mark)) {
		text, name, ok := strings.Cut(strings.TrimSuffix(line, "\n"), "  ")
		var sum [sha256.Size]byte
		if n, err := hex.Decode(sum[:], []byte(text)); ok && err == nil && n == len(sum) {
			w.sums[name] = sum
		}
	}
	return w, nil
}

// readPlain reads a file that is nothing but a file, and when it was written: a link may lead out of the site, and a pipe may never end.
func readPlain(name string) ([]byte, time.Time, error) {
	info, err := os.Lstat(name)
	if err != nil {
		return nil, time.Time{}, err
	}
	if !info.Mode().IsRegular() {
		return nil, time.Time{}, fmt.Errorf("%s is a link, a folder or a pipe, where a file is due: nothing was changed; take it away", name)
	}
	content, err := os.ReadFile(name)
	return content, info.ModTime(), err
}

// Kept returns a file of the site that is to be replaced, and whether it is there as an earlier run wrote it.
func (s *stage) Kept(name string) ([]byte, bool) {
	sum, there := s.kept.sums[name]
	if !there || !fs.ValidPath(name) {
		return nil, false
	}
	content, _, err := readPlain(s.inOld(name))
	if err != nil {
		return nil, false
	}
	return content, sha256.Sum256(content) == sum
}

func (s *stage) inOld(name string) string { return filepath.Join(s.old, filepath.FromSlash(name)) }

// carryOn gives a page of the site that is to be replaced its name in the new one too, where it is what would be written, byte for byte and with the
// same rights: it stays the file that it was, with its time, so that who copies the site elsewhere copies what has changed. It reports whether it did,
// and returns the digest that the mark has of it, if nobody has written to the file since.
func (s *stage) carryOn(name string, content []byte) (sum *[sha256.Size]byte, did bool) {
	noted, there := s.kept.sums[name]
	if !there {
		return nil, false
	}
	at, same := s.isUnchanged(s.inOld(name), content)
	if !same || s.link(s.inOld(name), filepath.Join(s.folder, filepath.FromSlash(name))) != nil {
		return nil, false
	}
	if at.After(s.kept.at) {
		return nil, true
	}
	return &noted, true
}

// readRooms are what old pages are read into to be compared.
var readRooms = sync.Pool{New: func() any { return new([]byte) }}

// isUnchanged reports whether a file is what would be written, and when it was. A link would be followed when it is read, and not when it is given its
// second name: it is no such file.
func (s *stage) isUnchanged(name string, content []byte) (at time.Time, same bool) {
	if s.mode == 0 { // it could not be told
		return at, false
	}
	room := readRooms.Get().(*[]byte)
	defer readRooms.Put(room)
	*room = slices.Grow((*room)[:0], len(content))[:len(content)]
	at, did := readAsWritten(name, s.mode, *room)
	return at, did && bytes.Equal(*room, content)
}
