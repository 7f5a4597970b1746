package disk

import (
	"errors"
	"os"
)

// before, where it is not nil, is called ahead of every call that changes the disk; its error stands in for the call. Tests set it.
var before func(call, name string) error

func ahead(call, name string) error {
	if before == nil {
		return nil
	}
	return before(call, name)
}

func mkdir(name string) error {
	if err := ahead("mkdir", name); err != nil {
		return err
	}
	return os.Mkdir(name, 0o755)
}

func mkdirAll(name string) error {
	if err := ahead("mkdir", name); err != nil {
		return err
	}
	return os.MkdirAll(name, 0o755)
}

// writeFile writes a file that isn't there yet, whole or not at all.
func writeFile(name string, content []byte) error {
	if err := ahead("create", name); err != nil {
		return err
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	err = ahead("write", name)
	if err == nil {
		_, err = f.Write(content)
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err == nil {
		err = ahead("close", name)
	}
	if err != nil {
		err = errors.Join(err, remove(name))
	}
	return err
}

func rename(from, to string) error {
	if err := ahead("rename", from); err != nil {
		return err
	}
	return os.Rename(from, to)
}

// swap exchanges two folders in one call. Where the system has none the error is [errors.ErrUnsupported].
func swap(a, b string) error {
	if err := ahead("swap", a); err != nil {
		return err
	}
	return exchange(a, b)
}

func remove(name string) error {
	if err := ahead("remove", name); err != nil {
		return err
	}
	return os.Remove(name)
}

func removeAll(name string) error {
	if _, err := os.Lstat(name); os.IsNotExist(err) {
		return nil
	}
	if err := ahead("remove", name); err != nil {
		return err
	}
	return os.RemoveAll(name)
}
