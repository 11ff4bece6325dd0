package drive

import (
	"cmp"
	"math"
)

// mostPairs is how many pairs a search lists.
const mostPairs = 16

// pairs returns the pairs within the search that close with the axle where it
// is, best first: by how near the play is to the middle of what is wanted, so
// that those which fit come first; at most mostPairs of them.
func (r *CentreRequest) pairs() []Pair {
	wanted := (r.SlackMM[0] + r.SlackMM[1]) / 2
	order := func(a, b Pair) int {
		return cmp.Or(
			cmp.Compare(math.Abs(a.PlayMM-wanted), math.Abs(b.PlayMM-wanted)),
			cmp.Compare(a.Ring, b.Ring), cmp.Compare(a.Sprocket, b.Sprocket))
	}
	found := make([]Pair, 0, mostPairs+1)
	for ring := int(r.Search.Chainrings[0]); ring <= int(r.Search.Chainrings[1]); ring++ {
		for sprocket := int(r.Search.Sprockets[0]); sprocket <= int(r.Search.Sprockets[1]); sprocket++ {
			p, ok := r.pair(ring, sprocket)
			if !ok || len(found) == mostPairs && order(p, found[mostPairs-1]) > 0 {
				continue
			}
			place := len(found)
			for place > 0 && order(p, found[place-1]) < 0 {
				place--
			}
			found = append(found, p)
			copy(found[place+1:], found[place:])
			found[place] = p
			found = found[:min(len(found), mostPairs)]
		}
	}
	return found
}

// pair returns the pair, or false where its ratio is outside the search or the
// wheels would touch.
func (r *CentreRequest) pair(ring, sprocket int) (Pair, bool) {
	p := Pair{Ring: ring, Sprocket: sprocket, Ratio: float64(ring) / float64(sprocket)}
	if s := r.Search.Ratio; s != nil && (p.Ratio < s[0]-rounding || p.Ratio > s[1]+rounding) {
		return p, false
	}
	f := newFixed(ring, sprocket, r)
	if r.CentreMM <= f.loop.LeastCentre()*f.pitchMM {
		return p, false
	}
	exact := f.exact(r.CentreMM)
	p.Pitches = closable(exact, r.HalfLinkAllowed)
	p.ExcessMM = max(0, float64(p.Pitches)-exact) * f.pitchMM
	p.PlayMM = PlayMM(f.straightMM(r.CentreMM), p.ExcessMM)
	p.Fits = p.PlayMM >= r.SlackMM[0]-playRounding && p.PlayMM <= r.SlackMM[1]+playRounding
	return p, true
}
