package ride

import (
	"strconv"
	"strings"

	"tautspan/internal/geodesic"
	"tautspan/internal/xmlscan"
)

// reasons a track point is left out, in the order in which they are listed.
var reasons = []string{"no_position", "unreadable_position", "out_of_range", "misplaced"}

// position reads lat and lon of the element just started; trouble is the reason
// why it cannot be used, or empty.
func position(s *xmlscan.Scanner) (p geodesic.Point, trouble string) {
	lat, hasLat := s.Attribute("lat")
	lon, hasLon := s.Attribute("lon")
	if !hasLat || !hasLon {
		return p, "no_position"
	}
	var okLat, okLon bool
	p.LatDeg, okLat = decimal(lat)
	p.LonDeg, okLon = decimal(lon)
	switch {
	case !okLat || !okLon:
		return p, "unreadable_position"
	case p.LatDeg < -90 || p.LatDeg > 90 || p.LonDeg < -180 || p.LonDeg >= 180:
		return p, "out_of_range"
	}
	return p, ""
}

// decimal reads an xsd:decimal: an optional sign, digits, and one point among,
// before or behind them; white space around it does not count. A number too
// large for a float64 is no number here.
func decimal(text string) (float64, bool) {
	text = strings.Trim(text, " \t\r\n")
	digits, points := 0, 0
	for i := range len(text) {
		switch c := text[i]; {
		case c >= '0' && c <= '9':
			digits++
		case c == '.':
			points++
		case i > 0 || c != '+' && c != '-':
			return 0, false
		}
	}
	if digits == 0 || points > 1 {
		return 0, false
	}
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil
}
