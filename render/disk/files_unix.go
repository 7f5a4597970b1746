//go:build unix

package disk

import (
	"io"
	"io/fs"
	"time"

	"golang.org/x/sys/unix"
)

// A site has thousands of files, and [os.File] takes six calls more for each, to find out whether it can be waited for. These take none.

// readAsWritten reads a file into the room, where it is nothing but a file, has the mode and fills the room. It neither follows a link nor waits for a pipe.
func readAsWritten(name string, mode fs.FileMode, room []byte) (at time.Time, did bool) {
	fd, err := retried(func() (int, error) {
		return unix.Open(name, unix.O_RDONLY|unix.O_NOFOLLOW|unix.O_NONBLOCK|unix.O_CLOEXEC, 0)
	})
	if err != nil {
		return at, false
	}
	defer unix.Close(fd) // it was only read
	var info unix.Stat_t
	if unix.Fstat(fd, &info) != nil || uint32(info.Mode) != unix.S_IFREG|uint32(mode.Perm()) || info.Size != int64(len(room)) {
		return at, false
	}
	for len(room) > 0 {
		n, err := retried(func() (int, error) { return unix.Read(fd, room) })
		if err != nil || n == 0 {
			return at, false
		}
		room = room[n:]
	}
	return time.Unix(info.Mtim.Unix()), true
}

// create makes a file that isn't there yet.
func create(name string) (newFile, error) {
	fd, err := retried(func() (int, error) {
		return unix.Open(name, unix.O_WRONLY|unix.O_CREAT|unix.O_EXCL|unix.O_CLOEXEC, 0o644)
	})
	if err != nil {
		return newFile{}, &fs.PathError{Op: "open", Path: name, Err: err}
	}
	return newFile{fd: fd, name: name}, nil
}

// newFile is a file while it is written.
type newFile struct {
	fd   int
	name string
}

func (f newFile) Write(content []byte) (written int, err error) {
	for written < len(content) {
		n, err := retried(func() (int, error) { return unix.Write(f.fd, content[written:]) })
		if err == nil && n == 0 {
			err = io.ErrShortWrite
		}
		if err != nil {
			return written, &fs.PathError{Op: "write", Path: f.name, Err: err}
		}
		written += n
	}
	return written, nil
}

func (f newFile) Close() error {
	if err := unix.Close(f.fd); err != nil && err != unix.EINTR { // after an interrupt it is closed all the same
		return &fs.PathError{Op: "close", Path: f.name, Err: err}
	}
	return nil
}

// retried makes a call again that a signal has cut short.
func retried(call func() (int, error)) (int, error) {
	for {
		n, err := call()
		if err != unix.EINTR {
			return n, err
		}
	}
}
