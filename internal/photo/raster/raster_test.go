package raster_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/fault"
	"tautspan/internal/photo/raster"
)

// ramp is a picture whose level is x/4 plus one for each 64 rows.
func ramp(width, height int) *image.Gray {
	m := image.NewGray(image.Rect(0, 0, width, height))
	for i := range m.Pix {
		m.Pix[i] = uint8(i%width/4 + i/width/64)
	}
	return m
}

func asJPEG(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, &jpeg.Options{Quality: 98}))
	return b.Bytes()
}

func asPNG(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, m))
	return b.Bytes()
}

func as[M interface {
	image.Image
	Set(x, y int, c color.Color)
}](m M, from *image.Gray) M {
	for y := range from.Rect.Dy() {
		for x := range from.Rect.Dx() {
			m.Set(x, y, from.At(x, y))
		}
	}
	return m
}

func TestDecode_everyForm(t *testing.T) {
	from := ramp(800, 640)
	palette := color.Palette{}
	for i := range 256 {
		palette = append(palette, color.Gray{Y: uint8(i)})
	}
	for name, file := range map[string][]byte{
		"JPEG grey":   asJPEG(t, from),
		"JPEG colour": asJPEG(t, as(image.NewRGBA(from.Rect), from)),
		"PNG grey":    asPNG(t, from),
		"PNG colour":  asPNG(t, as(image.NewNRGBA(from.Rect), from)),
		"PNG 16 bit":  asPNG(t, as(image.NewGray16(from.Rect), from)),
		"PNG palette": asPNG(t, as(image.NewPaletted(from.Rect, palette), from)),
	} {
		t.Run(name, func(t *testing.T) {
			p, err := raster.Decode(file)
			require.NoError(t, err)
			assert.Equal(t, [2]int{800, 640}, [2]int{p.Width, p.Height})
			for _, at := range [][2]int{{0, 0}, {799, 0}, {400, 320}, {799, 639}} {
				assert.InDelta(t, from.GrayAt(at[0], at[1]).Y, p.At(at[0], at[1]), 3, "%v", at)
			}
		})
	}
}

// pngHead is a PNG file that claims a size and ends.
func pngHead(width, height uint32, depth, colour, interlace byte) []byte {
	chunk := []byte("IHDR")
	chunk = binary.BigEndian.AppendUint32(chunk, width)
	chunk = binary.BigEndian.AppendUint32(chunk, height)
	chunk = append(chunk, depth, colour, 0, 0, interlace)
	file := append([]byte("\x89PNG\r\n\x1a\n"), 0, 0, 0, 13)
	return binary.BigEndian.AppendUint32(append(file, chunk...), crc32.ChecksumIEEE(chunk))
}

// jpegHead is a JPEG file that claims a size in a frame of that marker, three
// components of which the first is sampled as given, and ends.
func jpegHead(width, height int, marker, sampling byte) []byte {
	return []byte{0xff, 0xd8, 0xff, marker, 0, 17, 8, byte(height >> 8), byte(height), byte(width >> 8), byte(width),
		3, 1, sampling, 0, 2, 0x11, 0, 3, 0x11, 0}
}

func TestDecode_hostile(t *testing.T) {
	good := asJPEG(t, ramp(800, 640))
	goodPNG := asPNG(t, ramp(800, 640))
	var animation bytes.Buffer
	require.NoError(t, gif.Encode(&animation, ramp(64, 64), nil))
	scans := append([]byte{}, good...)
	scans = append(scans[:len(scans)-2], bytes.Repeat([]byte("\xff\xda\x00\x08\x01\x01\x00\x00\x3f\x00"), 200)...)
	for name, c := range map[string]struct {
		file []byte
		code fault.Code
	}{
		"nothing":                 {nil, fault.NotAllowed},
		"text":                    {[]byte("not a picture at all"), fault.NotAllowed},
		"animation":               {animation.Bytes(), fault.NotAllowed},
		"a phone's other form":    {[]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00"), fault.NotAllowed},
		"vector":                  {[]byte("<svg xmlns='http://www.w3.org/2000/svg'/>"), fault.NotAllowed},
		"JPEG signature only":     {[]byte("\xff\xd8\xff"), fault.Unreadable},
		"PNG signature only":      {[]byte("\x89PNG\r\n\x1a\n"), fault.Unreadable},
		"JPEG cut in its head":    {good[:60], fault.Unreadable},
		"JPEG cut in its scan":    {good[:len(good)/2], fault.Unreadable},
		"PNG cut":                 {goodPNG[:len(goodPNG)/2], fault.Unreadable},
		"PNG without pixels":      {pngHead(800, 640, 8, 2, 0), fault.Unreadable},
		"JPEG without pixels":     {jpegHead(800, 640, 0xc0, 0x22), fault.Unreadable},
		"JPEG of 65535 squared":   {jpegHead(65535, 65535, 0xc0, 0x11), fault.TooLarge},
		"PNG of 2^31 squared":     {pngHead(1<<31-1, 1<<31-1, 8, 6, 0), fault.TooLarge},
		"PNG of 16000 squared":    {pngHead(16000, 16000, 1, 0, 0), fault.TooLarge},
		"PNG deep and interlaced": {pngHead(4000, 3000, 16, 6, 1), fault.TooLarge},
		"JPEG progressive, full":  {jpegHead(4000, 3900, 0xc2, 0x11), fault.TooLarge},
		"JPEG of 200 scans":       {scans, fault.TooLarge},
		"small":                   {asPNG(t, ramp(599, 2000)), fault.OutOfRange},
		"no width":                {jpegHead(0, 3000, 0xc0, 0x11), fault.OutOfRange},
		"25 MB":                   {append(append([]byte{}, good...), make([]byte, 24<<20)...), fault.TooLarge},
	} {
		t.Run(name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			p, err := raster.Decode(c.file)
			runtime.ReadMemStats(&after)
			assert.Nil(t, p)
			assertFault(t, err, c.code)
			assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(8<<20), "memory taken before refusing")
		})
	}
}

func assertFault(t *testing.T, err error, code fault.Code) {
	t.Helper()
	var f *fault.Error
	require.ErrorAs(t, err, &f)
	assert.Equal(t, code, f.Code, f.Message)
	assert.Equal(t, "picture", f.Field)
}

// withExif puts an APP1 segment behind the start marker: a TIFF structure with
// the orientation in its first directory and the focal length in the Exif one
// (Exif 2.32, 4.5 and 4.6; tags 0x0112, 0x8769, 0xA405).
func withExif(file []byte, order binary.AppendByteOrder, mark string, orientation, focal35 uint16) []byte {
	tiff := order.AppendUint16([]byte(mark), 42)
	entry := func(tag, kind uint16, value []byte) {
		tiff = order.AppendUint16(order.AppendUint16(tiff, tag), kind)
		tiff = append(order.AppendUint32(tiff, 1), append(value, 0, 0, 0, 0)[:4]...)
	}
	tiff = order.AppendUint32(tiff, 8)
	tiff = order.AppendUint16(tiff, 2)
	entry(0x0112, 3, order.AppendUint16(nil, orientation))
	entry(0x8769, 4, order.AppendUint32(nil, 38))
	tiff = order.AppendUint32(tiff, 0)
	tiff = order.AppendUint16(tiff, 1)
	entry(0xa405, 3, order.AppendUint16(nil, focal35))
	segment := append([]byte("Exif\x00\x00"), tiff...)
	out := append([]byte{0xff, 0xd8, 0xff, 0xe1}, byte((len(segment)+2)>>8), byte(len(segment)+2))
	return append(append(out, segment...), file[2:]...)
}

// Phones put a film behind a picture: whatever its bytes look like is not the
// picture's.
func TestDecode_film(t *testing.T) {
	picture := asJPEG(t, ramp(800, 640))
	film := append(append([]byte{}, picture...), bytes.Repeat([]byte("\xff\xda\x00\x08film"), 500)...)
	p, err := raster.Decode(film)
	require.NoError(t, err)
	alone, err := raster.Decode(picture)
	require.NoError(t, err)
	assert.Equal(t, alone, p)
}

// The deepest form of 12 megapixels takes its 96 MB, 12 for the levels, and
// nothing for each pixel beside.
func TestDecode_deepMemory(t *testing.T) {
	m := image.NewNRGBA64(image.Rect(0, 0, 4000, 3000))
	m.Set(0, 0, color.NRGBA64{A: 1}) // not opaque, so that nothing is left out
	file := asPNG(t, m)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, err := raster.Decode(file)
	require.NoError(t, err)
	runtime.ReadMemStats(&after)
	assert.Less(t, (after.TotalAlloc-before.TotalAlloc)>>20, uint64(115), "MB")
}

func TestDecode_exif(t *testing.T) {
	plain := asJPEG(t, ramp(800, 640))
	other := append([]byte("\xff\xd8\xff\xe1\x00\x20another kind of APP1 segment.\x00"), withExif(plain, binary.BigEndian, "MM", 8, 26)[2:]...)
	for _, c := range []struct {
		file        []byte
		orientation int
		focal       float64
	}{
		{plain, 1, 0},
		{withExif(plain, binary.LittleEndian, "II", 6, 24), 6, 24},
		{withExif(plain, binary.BigEndian, "MM", 8, 26), 8, 26},
		{withExif(plain, binary.BigEndian, "MM", 9, 0), 1, 0},
		{other, 8, 26},
		{withExif(plain, binary.LittleEndian, "II", 0, 60000), 1, 0},
	} {
		p, err := raster.Decode(c.file)
		require.NoError(t, err)
		assert.Equal(t, c.orientation, p.Orientation)
		assert.Equal(t, c.focal, p.Focal35)
	}
}

// Whatever the bytes: a picture within the limits or a *fault.Error on picture.
func FuzzDecode(f *testing.F) {
	flat := image.NewGray(image.Rect(0, 0, 600, 600)) // small files are tried more often
	small := asJPEG(f, flat)
	f.Add(small)
	f.Add(withExif(small, binary.BigEndian, "MM", 3, 28))
	f.Add(asPNG(f, flat))
	f.Add(jpegHead(4000, 3000, 0xc2, 0x22))
	f.Add(pngHead(4000, 3000, 8, 6, 1))
	f.Fuzz(func(t *testing.T, file []byte) {
		p, err := raster.Decode(file)
		if err != nil {
			var refused *fault.Error
			if !errors.As(err, &refused) || refused.Field != "picture" {
				t.Fatalf("not a refusal of the picture: %v", err)
			}
			return
		}
		if p.Width*p.Height > raster.MaxPixels || min(p.Width, p.Height) < raster.MinSidePixels {
			t.Fatalf("outside the limits: %d × %d", p.Width, p.Height)
		}
		_ = p.At(p.Width-1, p.Height-1)
	})
}
