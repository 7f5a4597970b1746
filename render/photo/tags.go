package photo

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"io"
)

// jpegTags returns the Exif block and the colour profile of a JPEG, where it has them (ISO/IEC 10918-1, annex B; Exif 2.3, 4.7.2; ICC.1,
// annex B.4). Like the decoder it passes over stray bytes; a segment that runs past the end ends the search.
func jpegTags(content []byte) (exif, profile []byte) {
	parts := map[byte][]byte{}
	var count byte
	for i := 2; i+4 <= len(content); {
		marker := content[i+1]
		if content[i] != 0xff || marker == 0xff || marker == 0 {
			i++
			continue
		}
		if marker == 0x01 || marker >= 0xd0 && marker <= 0xd8 {
			i += 2
			continue
		}
		length := int(binary.BigEndian.Uint16(content[i+2:]))
		if marker == 0xda || marker == 0xd9 || length < 2 || i+2+length > len(content) {
			break
		}
		segment := content[i+4 : i+2+length]
		if rest, ok := bytes.CutPrefix(segment, []byte("Exif\x00\x00")); ok && marker == 0xe1 && exif == nil {
			exif = rest
		}
		if rest, ok := bytes.CutPrefix(segment, []byte("ICC_PROFILE\x00")); ok && marker == 0xe2 && len(rest) > 2 {
			parts[rest[0]], count = rest[2:], rest[1]
		}
		i += 2 + length
	}
	for n := 1; n <= int(count); n++ {
		part, ok := parts[byte(n)]
		if !ok {
			return exif, nil
		}
		profile = append(profile, part...)
	}
	return exif, profile
}

// pngTags returns the Exif block and the colour profile of a PNG, where it has them (PNG third edition, 11.3.2.3 and 11.3.4.5).
func pngTags(content []byte) (exif, profile []byte) {
	for i := 8; i+12 <= len(content); {
		length := int64(binary.BigEndian.Uint32(content[i:]))
		end := int64(i) + 12 + length
		if end > int64(len(content)) {
			break
		}
		chunk := content[i+8 : end-4]
		switch string(content[i+4 : i+8]) {
		case "eXIf":
			exif = chunk
		case "iCCP":
			profile = unpackProfile(chunk)
		case "IEND":
			return exif, profile
		}
		i = int(end)
	}
	return exif, profile
}

// unpackProfile returns the profile in a chunk of a PNG: a name, a zero, the method, and the packed profile.
func unpackProfile(chunk []byte) []byte {
	_, packed, ok := bytes.Cut(chunk, []byte{0})
	if !ok || len(packed) < 2 || packed[0] != 0 {
		return nil
	}
	z, err := zlib.NewReader(bytes.NewReader(packed[1:]))
	if err != nil {
		return nil
	}
	// One byte more than is used tells a profile that is too long from one that just fits.
	profile, err := io.ReadAll(io.LimitReader(z, maxProfile+1))
	if err != nil {
		return nil
	}
	return profile
}

// orientation returns how the rows of the file lie in the picture: the tag 274 in the first directory of an Exif block (Exif 2.3, 4.6.2
// and 4.6.4). It is 1, upright, where there is no such tag or none that can be read. Nothing else in the block matters, so a block that
// is broken further on doesn't lay a picture on its side.
func orientation(exif []byte) int {
	if len(exif) < 8 {
		return 1
	}
	var order binary.ByteOrder
	switch string(exif[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return 1
	}
	at := int64(order.Uint32(exif[4:]))
	if at+2 > int64(len(exif)) {
		return 1
	}
	entries := exif[at+2:]
	for range order.Uint16(exif[at:]) {
		if len(entries) < 12 {
			return 1
		}
		const short = 3
		if order.Uint16(entries) == 274 && order.Uint16(entries[2:]) == short {
			if o := int(order.Uint16(entries[8:])); o >= 1 && o <= 8 {
				return o
			}
			return 1
		}
		entries = entries[12:]
	}
	return 1
}
