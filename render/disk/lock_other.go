//go:build !unix

package disk

import "os"

// guard has nothing to hold on to here: the lock file stands alone.
func guard(string) (release func(), err error) { return func() {}, nil }

// isRunning reports whether there is a process of that number.
func isRunning(pid int) bool {
	process, err := os.FindProcess(pid)
	if err != nil {
		return false
	}
	process.Release()
	return true
}

// beginning is not told here.
func beginning(int) string { return "" }
