package raster

import "bytes"

// head is what the segments before a JPEG file's first scan say.
type head struct {
	width, height int
	need          int64 // bytes that decoding allocates
	exif          []byte
	scans         int // pieces that the picture is stored in
}

// jpegHead walks the segments of a JPEG file (ITU-T T.81, annex B) up to its
// first frame header, and counts the scans behind it.
func jpegHead(file []byte) (*head, error) {
	h := &head{}
	for at := 2; at+4 <= len(file); {
		if file[at] != 0xff {
			return nil, unreadable(nil)
		}
		marker := file[at+1]
		if marker == 0xff { // fill byte
			at++
			continue
		}
		size := int(file[at+2])<<8 | int(file[at+3])
		if size < 2 || at+2+size > len(file) {
			return nil, unreadable(nil)
		}
		segment := file[at+4 : at+2+size]
		switch {
		case marker == 0xe1 && bytes.HasPrefix(segment, []byte("Exif\x00\x00")):
			h.exif = segment
		case marker >= 0xc0 && marker <= 0xc2:
			h.scans = countScans(file[at+2+size:])
			return h, h.readFrame(segment, marker == 0xc2)
		case marker == 0xda:
			return nil, unreadable(nil) // a scan before any frame
		}
		at += 2 + size
	}
	return nil, unreadable(nil)
}

// countScans counts the scans up to the end of the image. What a phone puts
// behind it, a film for instance, is not the picture's.
func countScans(rest []byte) (scans int) {
	for {
		at := bytes.IndexByte(rest, 0xff)
		if at < 0 || at+4 > len(rest) {
			return scans
		}
		rest = rest[at:]
		length := 2
		switch marker := rest[1]; {
		case marker == 0xff: // a fill byte
			length = 1
		case marker <= 0x01 || marker >= 0xd0 && marker <= 0xd7: // without a segment
		case marker == 0xd9:
			return scans
		default:
			length += int(rest[2])<<8 + int(rest[3])
			if marker == 0xda {
				scans++
			}
		}
		rest = rest[min(length, len(rest)):]
	}
}

// readFrame reads a frame header (T.81, B.2.2). Pixels take a byte for each
// component; a progressive file also keeps all coefficients, 4 bytes each.
func (h *head) readFrame(segment []byte, progressive bool) error {
	if len(segment) < 6 || len(segment) < 6+3*int(segment[5]) || segment[5] == 0 {
		return unreadable(nil)
	}
	h.height = int(segment[1])<<8 | int(segment[2])
	h.width = int(segment[3])<<8 | int(segment[4])
	most, sum := int64(1), int64(0)
	for i := range int(segment[5]) {
		sampling := segment[6+3*i+1]
		area := int64(sampling>>4) * int64(sampling&15)
		most, sum = max(most, area), sum+area
	}
	h.need = int64(h.width) * int64(h.height) * sum / most
	if progressive {
		h.need *= 5
	}
	return nil
}
