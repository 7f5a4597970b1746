package gauge

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"
)

// A folder with a file more is a file system as Go's own test of them asks for: wherever the file stands, whether or not the folders above it
// are there, and in the place of what has its name.
func TestAFolderWithAFileMoreIsAFileSystem(t *testing.T) {
	disk := t.TempDir()
	if err := os.CopyFS(disk, os.DirFS("../../example-build")); err != nil {
		t.Fatal(err)
	}
	root, err := os.OpenRoot(disk)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	entries := fstest.MapFS{"build.toml": {}, "entries/2026-03-01.md": {Data: []byte("old")}, "entries/deep/2026-03-02.md": {}, "photos/a.png": {}}
	for _, c := range []struct {
		name   string
		folder fs.FS
		file   string
		also   string // a file of the folder that must still be there
	}{
		{"among others", entries, "entries/2026-03-09.md", "entries/2026-03-01.md"},
		{"first of others", entries, "entries/2025-03-09.md", "entries/deep/2026-03-02.md"},
		{"in the place of another", entries, "entries/2026-03-01.md", "photos/a.png"},
		{"in the place of a folder", entries, "entries/deep", "entries/2026-03-01.md"},
		{"at the top", entries, "limits.toml", "entries/2026-03-01.md"},
		{"below folders that are not there", entries, "entries/a/b/c.md", "entries/2026-03-01.md"},
		{"in a folder that is not there", fstest.MapFS{"build.toml": {}}, "entries/2026-03-09.md", "build.toml"},
		{"below a file", fstest.MapFS{"build.toml": {}, "entries": {Data: []byte("a file")}}, "entries/2026-03-09.md", "build.toml"},
		{"on a disk", root.FS(), "entries/2026-12-09.md", "build.toml"},
	} {
		t.Run(c.name, func(t *testing.T) {
			over := added{folder: c.folder, name: c.file, text: "new"}
			if err := fstest.TestFS(over, c.file, c.also); err != nil {
				t.Error(err)
			}
			if text, err := fs.ReadFile(over, c.file); err != nil || string(text) != "new" {
				t.Errorf("it holds %q, %v", text, err)
			}
		})
	}
	if _, err := os.Stat(filepath.Join(disk, "entries", "2026-12-09.md")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("it is on the disk: %v", err)
	}
}

// failing is a folder whose disk fails.
type failing struct{ fs.FS }

var errDisk = errors.New("the disk is gone")

func (failing) Open(name string) (fs.File, error) {
	return nil, &fs.PathError{Op: "open", Path: name, Err: errDisk}
}

func TestAFolderThatCantBeReadIsNotTakenForAnEmptyOne(t *testing.T) {
	over := added{folder: failing{}, name: "entries/a.md", text: "new"}
	for _, name := range []string{".", "entries"} {
		if _, err := over.ReadDir(name); !errors.Is(err, errDisk) {
			t.Errorf("listing %s: %v", name, err)
		}
		if _, err := over.Open(name); !errors.Is(err, errDisk) {
			t.Errorf("opening %s: %v", name, err)
		}
	}
}
