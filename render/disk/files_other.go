//go:build !unix

package disk

import (
	"io"
	"io/fs"
	"os"
	"time"
)

// readAsWritten reads a file into the room, where it is nothing but a file, has the mode and fills the room. It is looked at before it is opened: whoever opens
// a pipe may wait for ever.
func readAsWritten(name string, mode fs.FileMode, room []byte) (at time.Time, did bool) {
	info, err := os.Lstat(name)
	if err != nil || info.Mode() != mode || info.Size() != int64(len(room)) {
		return at, false
	}
	f, err := os.Open(name)
	if err != nil {
		return at, false
	}
	defer f.Close() // it was only read
	_, err = io.ReadFull(f, room)
	return info.ModTime(), err == nil
}

// create makes a file that isn't there yet.
func create(name string) (*os.File, error) {
	return os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
}
