package disk

import (
	"errors"
	"os"
	"path/filepath"

	"example.org/locknut/journal"
	"example.org/locknut/journal/parallel"
)

// system makes the calls that change the disk. The zero value only makes them.
type system struct {
	ahead func(call, name string) error // asked ahead of each, where it is not nil: its error stands in for the call
}

func (s system) may(call, name string) error {
	if s.ahead == nil {
		return nil
	}
	return s.ahead(call, name)
}

func (s system) mkdir(name string) error {
	if err := s.may("mkdir", name); err != nil {
		return err
	}
	return os.Mkdir(name, 0o755)
}

func (s system) mkdirAll(name string) error {
	if err := s.may("mkdir", name); err != nil {
		return err
	}
	return os.MkdirAll(name, 0o755)
}

// writeFile writes a file that isn't there yet, whole or not at all.
func (s system) writeFile(name string, content []byte) error {
	if err := s.may("create", name); err != nil {
		return err
	}
	f, err := create(name)
	if err != nil {
		return err
	}
	err = s.may("write", name)
	if err == nil {
		_, err = f.Write(content)
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err == nil {
		err = s.may("close", name)
	}
	if err != nil {
		err = errors.Join(err, s.remove(name))
	}
	return err
}

// flush has the system put a file, or the names in a folder, onto the disk itself, where it can be asked to.
func (s system) flush(name string) error {
	if err := s.may("flush", name); err != nil {
		return err
	}
	return flush(name)
}

// link gives a file a second name. Not every disk can; then the file is written.
func (s system) link(from, to string) error {
	if err := s.may("link", from); err != nil {
		return err
	}
	return os.Link(from, to)
}

func (s system) rename(from, to string) error {
	if err := s.may("rename", from); err != nil {
		return err
	}
	return os.Rename(from, to)
}

// swap exchanges two folders in one call. Where the system has none the error is [errors.ErrUnsupported].
func (s system) swap(a, b string) error {
	if err := s.may("swap", a); err != nil {
		return err
	}
	return exchange(a, b)
}

func (s system) remove(name string) error {
	if err := s.may("remove", name); err != nil {
		return err
	}
	return os.Remove(name)
}

func (s system) removeAll(name string) error {
	if _, err := os.Lstat(name); os.IsNotExist(err) {
		return nil
	}
	if err := s.may("remove", name); err != nil {
		return err
	}
	empty(name)
	return os.RemoveAll(name)
}

// empty takes away what it can of what is in a folder, the marks aside, which show whose it was until it is gone, with all processors: of a large site each file has many pages of memory to give back.
func empty(folder string) {
	all, err := os.ReadDir(folder)
	if err != nil {
		return // whoever removes the folder will say so
	}
	parallel.Each(len(all), func(i int) {
		if name := all[i].Name(); !all[i].IsDir() && name != journal.SiteMark && name != unfinished {
			os.Remove(filepath.Join(folder, name)) // as above
		}
	})
	for _, d := range all {
		if below := filepath.Join(folder, d.Name()); d.IsDir() {
			empty(below)
			os.Remove(below)
		}
	}
}
