package photo

import "math"

// overlay puts marks and rivets where the picture, as it is shown, has them.
func (s *sight) overlay() Overlay {
	p := s.picture
	o := Overlay{Width: p.Width, Height: p.Height, Marks: []Point{}, Rivets: []Ring{}}
	if p.Orientation >= 5 {
		o.Width, o.Height = p.Height, p.Width
	}
	if s.frame == nil {
		return o
	}
	for _, m := range s.frame.marks {
		if s.frame.rule && (m.side != 1 || math.Mod(m.x, 5) != 0) {
			continue // of a rule's thousand, so many that the rule itself can still be seen
		}
		o.Marks = append(o.Marks, s.shown(m.u, m.v))
	}
	for _, v := range s.rivets {
		u, w := s.frame.lens.pixel(v.x, v.y)
		o.Rivets = append(o.Rivets, Ring{s.shown(u, w), s.rimMM * s.frame.lens.perMM(v.x, v.y), v.clear})
	}
	return o
}

// shown turns a place in the stored picture into the place in the shown one
// (Exif 2.32, Orientation).
func (s *sight) shown(u, v float64) Point {
	w, h := float64(s.picture.Width), float64(s.picture.Height)
	switch s.picture.Orientation {
	case 2:
		return Point{w - u, v}
	case 3:
		return Point{w - u, h - v}
	case 4:
		return Point{u, h - v}
	case 5:
		return Point{v, u}
	case 6:
		return Point{h - v, u}
	case 7:
		return Point{h - v, w - u}
	case 8:
		return Point{v, w - u}
	}
	return Point{u, v}
}
