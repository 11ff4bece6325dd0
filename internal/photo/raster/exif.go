package raster

import (
	"bytes"
	"encoding/binary"
)

// Tags of Exif 2.32 and the TIFF 6.0 structure it uses.
const (
	tagOrientation = 0x0112
	tagExif        = 0x8769
	tagFocal35     = 0xa405
	typeShort      = 3
	typeLong       = 4
)

// readExif takes orientation and focal length out of an APP1 segment. What it
// cannot read it leaves alone: the picture measures without it.
func (p *Picture) readExif(segment []byte) {
	tiff, there := bytes.CutPrefix(segment, []byte("Exif\x00\x00"))
	if !there || len(tiff) < 8 {
		return
	}
	var order binary.ByteOrder = binary.LittleEndian
	if tiff[0] == 'M' {
		order = binary.BigEndian
	}
	main := entries(tiff, order, order.Uint32(tiff[4:]))
	if turn := main[tagOrientation]; turn >= 1 && turn <= 8 {
		p.Orientation = int(turn)
	}
	if at, there := main[tagExif]; there {
		if focal := entries(tiff, order, at)[tagFocal35]; focal >= 10 && focal <= 200 {
			p.Focal35 = float64(focal)
		}
	}
}

// entries reads the whole numbers of one directory at an offset.
func entries(tiff []byte, order binary.ByteOrder, at uint32) map[uint16]uint32 {
	found := map[uint16]uint32{}
	if uint64(at)+2 > uint64(len(tiff)) {
		return found
	}
	count := int(order.Uint16(tiff[at:]))
	rest := tiff[at+2:]
	for i := 0; i < count && len(rest) >= 12*(i+1); i++ {
		entry := rest[12*i:]
		switch order.Uint16(entry[2:]) {
		case typeShort:
			found[order.Uint16(entry)] = uint32(order.Uint16(entry[8:]))
		case typeLong:
			found[order.Uint16(entry)] = order.Uint32(entry[8:])
		}
	}
	return found
}
