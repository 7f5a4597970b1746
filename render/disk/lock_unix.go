//go:build unix

package disk

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
)

// guard makes sure that one process at a time looks at the lock and takes it: it holds the folder that the lock stands in.
func guard(name string) (release func(), err error) {
	folder, err := os.Open(filepath.Dir(name))
	if err != nil {
		return nil, err
	}
	for {
		err = syscall.Flock(int(folder.Fd()), syscall.LOCK_EX)
		if !errors.Is(err, syscall.EINTR) {
			break
		}
	}
	// Some file systems have no such hold. The lock file then stands alone.
	return func() { folder.Close() }, nil
}

// isRunning reports whether there is a process of that number.
func isRunning(pid int) bool {
	err := syscall.Kill(pid, 0)
	return err == nil || errors.Is(err, syscall.EPERM)
}

// beginning returns when a process began, in a form of the system's; "" where the system doesn't tell. On Linux it is field 22 of
// /proc/PID/stat, counted from the end of the name in brackets, which may hold blanks.
func beginning(pid int) string {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	if err != nil {
		return ""
	}
	fields := strings.Fields(string(text[strings.LastIndexByte(string(text), ')')+1:]))
	if len(fields) < 20 {
		return ""
	}
	return fields[19]
}
