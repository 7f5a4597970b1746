package source

import (
	"bytes"
	"io/fs"
)

// FirstLine returns the first line of a file, without its end, and without reading more than that takes; "" where there is no such file.
func FirstLine(files fs.FS, name string) string {
	f, err := files.Open(name)
	if err != nil {
		return ""
	}
	defer f.Close()
	var line []byte
	for part := make([]byte, 256); ; {
		n, err := f.Read(part)
		if end := bytes.IndexByte(part[:n], '\n'); end >= 0 {
			return string(append(line, part[:end]...))
		}
		if line = append(line, part[:n]...); err != nil || n == 0 {
			return string(line)
		}
	}
}
