package ride

import (
	"tautspan/internal/geodesic"
	"tautspan/internal/xmlscan"
)

// namespace of GPX 1.1.
const namespace = "http://www.topografix.com/GPX/1/1"

// path leads to a time; what is measured lies on it.
var path = [...]string{"gpx", "trk", "trkseg", "trkpt", "time"}

// Levels of the path.
const (
	inFile    = 1
	inSegment = 3
	inPoint   = 4
	inTime    = 5
)

// track adds up a file while it is read.
type track struct {
	scanner  *xmlscan.Scanner
	level    int // how many open elements, from the root on, lie on the path
	here     geodesic.Point
	atPoint  bool // the open point is used
	anyPoint bool // the open segment has a point used, which is here
	sumM     float64
	longestM float64

	segments, points, routes, waypoints, badTimes int

	first, last moment
	skipped     map[string]int
}

// read reads the file to its end.
func (t *track) read() error {
	for {
		event, err := t.scanner.Next()
		if err != nil || event == xmlscan.EndOfFile {
			return err
		}
		depth := t.scanner.Depth()
		switch {
		case event == xmlscan.Start && depth == 1:
			err = t.root()
		case event == xmlscan.Start:
			t.start(depth)
		case depth == t.level:
			t.end()
		}
		if err != nil {
			return err
		}
	}
}

// root checks that the file is GPX 1.1.
func (t *track) root() error {
	if !t.scanner.Is(namespace, path[0]) {
		return t.scanner.Refuse("this is no GPX 1.1 file; allowed is a file whose outermost element is gpx in the namespace " + namespace)
	}
	if version, _ := t.scanner.Attribute("version"); version != "1.1" {
		return t.scanner.Refuse("the gpx element does not say version=\"1.1\"; allowed is GPX 1.1")
	}
	t.level = inFile
	return nil
}

func (t *track) start(depth int) {
	onPath := t.level == depth-1
	if onPath && depth <= len(path) && t.scanner.Is(namespace, path[depth-1]) {
		t.level = depth
		t.enter()
		return
	}
	switch {
	case t.scanner.Is(namespace, "trkpt"):
		t.skipped["misplaced"]++
	case onPath && depth == inFile+1 && t.scanner.Is(namespace, "rte"):
		t.routes++
	case onPath && depth == inFile+1 && t.scanner.Is(namespace, "wpt"):
		t.waypoints++
	}
}

// enter takes in the element on the path that has just started.
func (t *track) enter() {
	switch t.level {
	case inSegment:
		t.anyPoint = false
	case inPoint:
		t.point()
	case inTime:
		t.scanner.Collect()
	}
}

// end takes in the element on the path that ends.
func (t *track) end() {
	if t.level == inTime && t.atPoint {
		t.time()
	}
	t.level--
}

// point adds the leg to the point that has just started.
func (t *track) point() {
	here, trouble := position(t.scanner)
	t.atPoint = trouble == ""
	if !t.atPoint {
		t.skipped[trouble]++
		return
	}
	if t.anyPoint {
		leg := geodesic.DistanceM(t.here, here)
		t.sumM += leg
		t.longestM = max(t.longestM, leg)
	} else {
		t.segments++
	}
	t.here, t.anyPoint = here, true
	t.points++
}

// time takes in the time of the open point.
func (t *track) time() {
	text, whole := t.scanner.Text()
	at := readMoment(text)
	switch {
	case !whole || !at.known:
		t.badTimes++
	case !t.first.known:
		t.first, t.last = at, at
	case at.before(t.first):
		t.first = at
	case t.last.before(at):
		t.last = at
	}
}
