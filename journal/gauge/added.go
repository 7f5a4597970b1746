package gauge

import (
	"errors"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"
)

// added is a folder with one more file in it, in the place of one of that name, and with the folders above that file.
type added struct {
	folder     fs.FS
	name, text string
}

// Open opens the file, a folder above it, or what the folder has.
func (a added) Open(name string) (fs.File, error) {
	switch {
	case !fs.ValidPath(name):
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	case name == a.name:
		return &openFile{Reader: strings.NewReader(a.text), info: a.fileInfo()}, nil
	case !a.isBelow(name):
		return a.folder.Open(name)
	}
	info, err := a.folderInfo(name)
	if err != nil {
		return nil, err
	}
	list, err := a.ReadDir(name)
	if err != nil {
		return nil, err
	}
	return &openFolder{info: info, list: list}, nil
}

// ReadDir lists a folder, the file or what leads to it among the others.
func (a added) ReadDir(name string) ([]fs.DirEntry, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "readdir", Path: name, Err: fs.ErrInvalid}
	}
	if !a.isBelow(name) {
		return fs.ReadDir(a.folder, name)
	}
	var list []fs.DirEntry
	switch info, err := fs.Stat(a.folder, name); {
	case err == nil && info.IsDir():
		if list, err = fs.ReadDir(a.folder, name); err != nil {
			return nil, err
		}
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return nil, err
	}
	below := strings.TrimPrefix(a.name, name+"/")
	next, _, deeper := strings.Cut(below, "/")
	info := a.fileInfo()
	if deeper {
		var err error
		if info, err = a.folderInfo(path.Join(name, next)); err != nil {
			return nil, err
		}
	}
	at, there := slices.BinarySearchFunc(list, next, func(d fs.DirEntry, name string) int { return strings.Compare(d.Name(), name) })
	if there {
		list[at] = fs.FileInfoToDirEntry(info)
		return list, nil
	}
	return slices.Insert(list, at, fs.FileInfoToDirEntry(info)), nil
}

// isBelow reports whether the file stands in a folder or below it.
func (a added) isBelow(folder string) bool {
	return folder == "." || strings.HasPrefix(a.name, folder+"/")
}

func (a added) fileInfo() fs.FileInfo { return addedInfo{path.Base(a.name), int64(len(a.text))} }

// folderInfo describes a folder above the file, be it there or not.
func (a added) folderInfo(name string) (fs.FileInfo, error) {
	info, err := fs.Stat(a.folder, name)
	if errors.Is(err, fs.ErrNotExist) || err == nil && !info.IsDir() {
		return addedInfo{path.Base(name), -1}, nil
	}
	return info, err
}

// openFile is the file while it is read.
type openFile struct {
	io.Reader
	info fs.FileInfo
}

func (f *openFile) Stat() (fs.FileInfo, error) { return f.info, nil }
func (f *openFile) Close() error               { return nil }

// openFolder is a folder above the file while it is listed.
type openFolder struct {
	info fs.FileInfo
	list []fs.DirEntry // what is left of it
}

func (f *openFolder) Stat() (fs.FileInfo, error) { return f.info, nil }
func (f *openFolder) Close() error               { return nil }

func (f *openFolder) Read([]byte) (int, error) {
	return 0, &fs.PathError{Op: "read", Path: f.info.Name(), Err: errors.New("is a folder")}
}

func (f *openFolder) ReadDir(n int) ([]fs.DirEntry, error) {
	if n > 0 && len(f.list) == 0 {
		return nil, io.EOF
	}
	if n <= 0 || n > len(f.list) {
		n = len(f.list)
	}
	next := f.list[:n:n]
	f.list = f.list[n:]
	return next, nil
}

// addedInfo describes the file, or a folder that is there for its sake alone: that has no size.
type addedInfo struct {
	name string
	size int64
}

func (i addedInfo) Name() string       { return i.name }
func (i addedInfo) Size() int64        { return max(0, i.size) }
func (i addedInfo) ModTime() time.Time { return time.Time{} }
func (i addedInfo) IsDir() bool        { return i.size < 0 }
func (i addedInfo) Sys() any           { return nil }

func (i addedInfo) Mode() fs.FileMode {
	if i.IsDir() {
		return fs.ModeDir | 0o755
	}
	return 0o644
}
