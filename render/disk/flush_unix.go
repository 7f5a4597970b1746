//go:build unix

package disk

import (
	"errors"
	"os"
	"syscall"
)

// flush is fsync(2), on a file or a folder. Some file systems refuse it for folders: they keep names in their own time.
func flush(name string) error {
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	err = f.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		err = nil
	}
	return errors.Join(err, f.Close())
}
