package photo

import (
	"bytes"
	"errors"
	"image"
	"io"
	"io/fs"
)

// tail is how much of a file's end is looked at for the mark that ends a picture: cameras put little after it, if anything.
const tail = 64 << 10

// Look looks at a file as far as it takes to tell whether [Make] will make pictures of it: at its head, which says what it is and how large,
// and at its end. It decodes no pixels, so damage in the middle is not seen. An error is the reason why nothing can be made, in words that go on
// from the file's name, or about the disk ([fs.PathError]).
func Look(f fs.File) error {
	info, err := f.Stat()
	if err != nil {
		return err
	}
	if err := CheckBytes(info.Size()); err != nil {
		return err
	}
	config, format, err := image.DecodeConfig(f)
	var disk *fs.PathError
	switch {
	case errors.As(err, &disk):
		return err
	case errors.Is(err, image.ErrFormat) || format != "jpeg" && format != "png" && format != "gif":
		return errNoPicture
	case err != nil:
		return broken(err)
	}
	if err := checkPixels(config); err != nil {
		return err
	}
	at, ok := f.(io.ReaderAt)
	if !ok || format == "gif" {
		return nil
	}
	whole, err := hasEnd(at, info.Size(), format)
	if err == nil && !whole {
		err = errors.New("it breaks off before its end")
	}
	return err
}

// hasEnd reports whether a picture's end is there. Only where the end of the file doesn't show it all of the file is read: some cameras
// put a film behind the picture.
func hasEnd(at io.ReaderAt, size int64, format string) (bool, error) {
	from := int64(0)
	if format == "jpeg" {
		from = scanFrom(at)
	}
	if size-from > tail {
		last := make([]byte, tail)
		if _, err := at.ReadAt(last, size-tail); err != nil && !errors.Is(err, io.EOF) {
			return false, err
		}
		if bytes.Contains(last, endMark(format)) {
			return true, nil
		}
	}
	all, err := io.ReadAll(io.NewSectionReader(at, from, max(0, size-from)))
	if err != nil {
		return false, err
	}
	return bytes.Contains(all, endMark(format)), nil
}

// endMark is what ends a picture: the marker EOI of a JPEG (ITU-T T.81, B.1.1.3), the last chunk of a PNG with its check sum (ISO/IEC 15948,
// 11.2.5). Both from memory.
func endMark(format string) []byte {
	if format == "jpeg" {
		return []byte("\xff\xd9")
	}
	return []byte("IEND\xae\x42\x60\x82")
}

// scanFrom returns where the first scan of a JPEG begins: what stands before it, such as a small copy of the picture, has ends of its own. What
// can't be read begins no scan: whoever reads on will say so.
func scanFrom(at io.ReaderAt) int64 {
	const fill, startOfScan = 0xff, 0xda // any number of fill bytes may stand before a marker
	i := int64(2)
	var head [4]byte
	for {
		if _, err := at.ReadAt(head[:], i); err != nil || head[0] != 0xff || head[1] == startOfScan {
			return i
		}
		if head[1] == fill {
			i++
			continue
		}
		i += 2 + int64(head[2])<<8 + int64(head[3])
	}
}
