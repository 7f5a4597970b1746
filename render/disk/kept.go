package disk

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"example.org/locknut/journal"
)

// marked reads the mark of a folder: the digests of the files of the site in it, by name. It is nil where there is none.
func marked(folder string) (map[string]string, error) {
	mark, err := readPlain(filepath.Join(folder, journal.SiteMark))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	sums := map[string]string{}
	for line := range strings.Lines(string(mark)) {
		if sum, name, ok := strings.Cut(strings.TrimSuffix(line, "\n"), "  "); ok {
			sums[name] = sum
		}
	}
	return sums, nil
}

// readPlain reads a file that is nothing but a file: a link may lead out of the site, and a pipe may never end.
func readPlain(name string) ([]byte, error) {
	info, err := os.Lstat(name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is a link, a folder or a pipe, where a file is due: nothing was changed; take it away", name)
	}
	return os.ReadFile(name)
}

// Kept returns a file of the site that is to be replaced, and whether it is there as an earlier run wrote it.
func (s *stage) Kept(name string) ([]byte, bool) {
	if s.kept[name] == "" || !fs.ValidPath(name) {
		return nil, false
	}
	content, err := readPlain(s.inOld(name))
	if err != nil {
		return nil, false
	}
	sum := sha256.Sum256(content)
	return content, hex.EncodeToString(sum[:]) == s.kept[name]
}

func (s *stage) inOld(name string) string { return filepath.Join(s.old, filepath.FromSlash(name)) }

// carryOn gives a page of the site that is to be replaced its name in the new one too, where it is what would be written, byte for byte and with the
// same rights: it stays the file that it was, with its time, so that who copies the site elsewhere copies what has changed. It reports whether it did.
func (s *stage) carryOn(name string, content []byte) bool {
	return s.kept[name] != "" && s.isUnchanged(s.inOld(name), content) && s.link(s.inOld(name), filepath.Join(s.folder, filepath.FromSlash(name))) == nil
}

// readRooms are what old pages are read into to be compared.
var readRooms = sync.Pool{New: func() any { return new([]byte) }}

// isUnchanged reports whether a file is what would be written. It is looked at before it is opened: a link would be followed when it is read, and not when it
// is given its second name, and whoever opens a pipe may wait for ever.
func (s *stage) isUnchanged(name string, content []byte) bool {
	info, err := os.Lstat(name)
	if err != nil || !info.Mode().IsRegular() || info.Mode() != s.mode || info.Size() != int64(len(content)) {
		return false
	}
	f, err := os.Open(name)
	if err != nil {
		return false
	}
	defer f.Close() // it was only read
	room := readRooms.Get().(*[]byte)
	defer readRooms.Put(room)
	*room = slices.Grow((*room)[:0], len(content))[:len(content)]
	_, err = io.ReadFull(f, *room)
	return err == nil && bytes.Equal(*room, content)
}
