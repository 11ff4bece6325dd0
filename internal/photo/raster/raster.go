// Package raster reads a picture file that may be hostile into levels of grey,
// in bounded memory: what the file claims is checked against the limits before
// anything is decoded.
package raster

import (
	"bytes"
	"image"
	"image/jpeg"
	"image/png"
	"strconv"

	"tautspan/internal/fault"
)

// The limits of a picture.
const (
	MaxFileBytes   = 24 << 20   // the file
	MaxPixels      = 16_000_000 // 12 megapixels are enough; more costs memory and gains nothing
	MinSidePixels  = 600        // the shorter side
	maxDecodeBytes = 130 << 20  // what decoding may allocate
	maxScans       = 64         // pieces of a JPEG file; an ordinary one has 1 to 12
)

// Gray is a picture in levels of grey, 0 to 255, row by row. Pixel (x, y) covers
// x to x+1 and y to y+1.
type Gray struct {
	Pix           []uint8
	Width, Height int
	Stride        int
}

// At returns the level of pixel (x, y), which must lie inside.
func (g *Gray) At(x, y int) uint8 { return g.Pix[y*g.Stride+x] }

// Picture is a decoded picture and what its file says about the camera.
type Picture struct {
	Gray
	Orientation int     // Exif 2.32, tag 0x0112: 1 to 8, 1 when absent
	Focal35     float64 // Exif 2.32, tag 0xA405: mm, 0 when absent
}

// Decode reads a JPEG or PNG file. Errors are *fault.Error on the field picture:
// not_allowed for another kind of file, too_large for more bytes, pixels or
// memory than the limits, out_of_range for a picture too small, unreadable for
// a file that is cut off or damaged. It allocates at most about 130 MB.
func Decode(file []byte) (*Picture, error) {
	if len(file) > MaxFileBytes {
		return nil, refuse(fault.TooLarge, "the file has "+strconv.Itoa(len(file))+" bytes; allowed are at most "+strconv.Itoa(MaxFileBytes))
	}
	switch {
	case bytes.HasPrefix(file, []byte("\xff\xd8\xff")):
		return decodeJPEG(file)
	case bytes.HasPrefix(file, []byte("\x89PNG\r\n\x1a\n")):
		return decodePNG(file)
	}
	return nil, refuse(fault.NotAllowed, "this is not a JPEG or PNG picture; choose a photograph in one of these two forms")
}

func refuse(code fault.Code, message string) error { return fault.New(code, "picture", message) }

func unreadable(cause error) error {
	f := fault.New(fault.Unreadable, "picture", "the picture is cut off or damaged; take or choose another one")
	f.Cause = cause
	return f
}

// checkSize holds what a header claims against the limits.
func checkSize(width, height int, bytesNeeded int64) error {
	size := strconv.Itoa(width) + " × " + strconv.Itoa(height) + " pixels"
	switch {
	case int64(width)*int64(height) > MaxPixels:
		return refuse(fault.TooLarge, "the picture has "+size+"; allowed are at most 16 megapixels: set the camera to 12")
	case min(width, height) < MinSidePixels:
		return refuse(fault.OutOfRange, "the picture has "+size+"; the shorter side must have at least "+strconv.Itoa(MinSidePixels))
	case bytesNeeded > maxDecodeBytes:
		return refuse(fault.TooLarge, "the picture is stored in a form that needs too much memory; choose one as the camera stores it")
	}
	return nil
}

func decodePNG(file []byte) (*Picture, error) {
	width, height, need, err := pngNeeds(file)
	if err != nil {
		return nil, err
	}
	if err := checkSize(width, height, need); err != nil {
		return nil, err
	}
	decoded, err := png.Decode(bytes.NewReader(file))
	if err != nil {
		return nil, unreadable(err)
	}
	return &Picture{Gray: *toGray(decoded), Orientation: 1}, nil
}

// pngNeeds reads the header chunk of a PNG file (W3C PNG, 11.2.1) and returns
// how many bytes its pixels take once decoded.
func pngNeeds(file []byte) (width, height int, need int64, err error) {
	if len(file) < 33 || string(file[12:16]) != "IHDR" {
		return 0, 0, 0, unreadable(nil)
	}
	number := func(at int) int64 {
		return int64(file[at])<<24 | int64(file[at+1])<<16 | int64(file[at+2])<<8 | int64(file[at+3])
	}
	w, h := number(16), number(20)
	if w > 1<<20 || h > 1<<20 {
		w, h = min(w, 1<<20), min(h, 1<<20) // far past the limit; keeps products small
	}
	bytesPer := int64(4)
	if file[24] == 16 {
		bytesPer = 8
	}
	if file[28] != 0 {
		bytesPer *= 2 // interlaced: its passes are decoded beside the whole
	}
	return int(w), int(h), w * h * bytesPer, nil
}

// toGray turns any picture into grey, sharing memory where it can.
func toGray(m image.Image) *Gray {
	b := m.Bounds()
	g := &Gray{Width: b.Dx(), Height: b.Dy(), Stride: b.Dx()}
	switch m := m.(type) {
	case *image.YCbCr:
		g.Pix, g.Stride = m.Y, m.YStride
		return g
	case *image.Gray:
		g.Pix, g.Stride = m.Pix, m.Stride
		return g
	case *image.NRGBA:
		return g.fromRGB(m.Pix, m.Stride)
	case *image.RGBA:
		return g.fromRGB(m.Pix, m.Stride)
	}
	g.Pix = make([]uint8, g.Width*g.Height)
	deep := m.(image.RGBA64Image) // as all that is decoded here; At would take memory for each pixel
	for y := range g.Height {
		for x := range g.Width {
			c := deep.RGBA64At(b.Min.X+x, b.Min.Y+y)
			g.Pix[y*g.Stride+x] = uint8((19595*uint32(c.R) + 38470*uint32(c.G) + 7471*uint32(c.B) + 1<<15) >> 24)
		}
	}
	return g
}

// fromRGB weighs the colours as JFIF 1.02 does, and works in place.
func (g *Gray) fromRGB(pix []uint8, stride int) *Gray {
	for y := range g.Height {
		row := pix[y*stride:]
		for x := range g.Width {
			p := row[4*x : 4*x+3 : 4*x+3]
			pix[y*g.Width+x] = uint8((19595*uint32(p[0]) + 38470*uint32(p[1]) + 7471*uint32(p[2]) + 1<<15) >> 16)
		}
	}
	g.Pix = pix[:g.Width*g.Height]
	return g
}

func decodeJPEG(file []byte) (*Picture, error) {
	head, err := jpegHead(file)
	if err != nil {
		return nil, err
	}
	if err := checkSize(head.width, head.height, head.need); err != nil {
		return nil, err
	}
	if head.scans > maxScans {
		return nil, refuse(fault.TooLarge, "the picture is stored in too many pieces; choose one as the camera stores it")
	}
	decoded, err := jpeg.Decode(bytes.NewReader(file))
	if err != nil {
		return nil, unreadable(err)
	}
	picture := &Picture{Gray: *toGray(decoded), Orientation: 1}
	picture.readExif(head.exif)
	return picture, nil
}
