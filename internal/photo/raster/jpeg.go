package raster

// head is what the segments before a JPEG file's first scan say.
type head struct {
	width, height int
	need          int64 // bytes that decoding allocates
	exif          []byte
}

// jpegHead walks the segments of a JPEG file (ITU-T T.81, annex B) up to its
// first frame header.
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
		case marker == 0xe1 && h.exif == nil:
			h.exif = segment
		case marker >= 0xc0 && marker <= 0xc2:
			return h, h.readFrame(segment, marker == 0xc2)
		case marker == 0xda:
			return nil, unreadable(nil) // a scan before any frame
		}
		at += 2 + size
	}
	return nil, unreadable(nil)
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
