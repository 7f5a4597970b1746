package disk

import (
	"errors"

	"golang.org/x/sys/unix"
)

// exchange is renameat2(2) with RENAME_EXCHANGE. Old kernels and some file systems don't have it.
func exchange(a, b string) error {
	err := unix.Renameat2(unix.AT_FDCWD, a, unix.AT_FDCWD, b, unix.RENAME_EXCHANGE)
	if err == unix.ENOSYS || err == unix.EINVAL || err == unix.ENOTSUP {
		return errors.ErrUnsupported
	}
	return err
}
