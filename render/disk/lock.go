package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strconv"
	"strings"
)

// take takes the lock of a target, so that two runs never write one site at once, and returns what gives it back. The lock is a file that
// names the process which holds it, and when that process began where the system tells: numbers of processes come again. The lock of a
// process that is gone is taken over.
func (s system) take(name string) (unlock func() error, err error) {
	alone, err := guard(name)
	if err != nil {
		return nil, err
	}
	defer alone()
	err = s.writeFile(name, []byte(holder(os.Getpid())))
	if errors.Is(err, fs.ErrExist) {
		if err = isGone(name); err != nil {
			return nil, err
		}
		if err = s.remove(name); err != nil {
			return nil, err
		}
		err = s.writeFile(name, []byte(holder(os.Getpid())))
	}
	if err != nil {
		return nil, fmt.Errorf("take the lock: %w", err)
	}
	return func() error { return s.remove(name) }, nil
}

// holder is what the lock of a process says.
func holder(pid int) string {
	text := strconv.Itoa(pid)
	if began := beginning(pid); began != "" {
		text += " " + began
	}
	return text + "\n"
}

// isGone returns an error unless the process that a lock names is gone. A lock that names none was never finished.
func isGone(name string) error {
	text, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	fields := strings.Fields(string(text))
	if len(fields) == 0 {
		return nil
	}
	pid, err := strconv.Atoi(fields[0])
	if err != nil || pid <= 0 {
		return fmt.Errorf("%s is no lock of this program: take it away if no other program writes the site", name)
	}
	if !isRunning(pid) || len(fields) > 1 && beginning(pid) != "" && beginning(pid) != fields[1] {
		return nil
	}
	return fmt.Errorf("process %d is writing this site: wait for it to end (its lock is %s)", pid, name)
}
