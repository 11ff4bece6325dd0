package store

import "sync"

// Watcher hears of everything new in one garage.
type Watcher struct {
	// Cursors gives the newest cursor; older ones nobody took are dropped. It
	// is closed when the device is revoked, the garage deleted or the store
	// closed.
	Cursors chan string
	garage  string
	device  string
}

// watchers is everyone who watches, by garage.
type watchers struct {
	mu sync.Mutex
	by map[string]map[*Watcher]bool
}

// Watch begins to watch for a device; Unwatch must end it. It returns nil for
// one that watches most times already.
func (s *Store) Watch(who *Session, most int) *Watcher {
	w := &Watcher{Cursors: make(chan string, 1), garage: who.GarageID, device: who.Device}
	s.watch.mu.Lock()
	defer s.watch.mu.Unlock()
	open := 0
	for other := range s.watch.by[w.garage] {
		if other.device == w.device {
			open++
		}
	}
	if open >= most {
		return nil
	}
	if s.watch.by == nil {
		s.watch.by = map[string]map[*Watcher]bool{}
	}
	if s.watch.by[w.garage] == nil {
		s.watch.by[w.garage] = map[*Watcher]bool{}
	}
	s.watch.by[w.garage][w] = true
	return w
}

// number is how many watch.
func (ws *watchers) number() int64 {
	ws.mu.Lock()
	defer ws.mu.Unlock()
	n := 0
	for _, of := range ws.by {
		n += len(of)
	}
	return int64(n)
}

// Unwatch ends watching. It may be called after the watcher was closed.
func (s *Store) Unwatch(w *Watcher) {
	s.watch.drop(w.garage, func(other *Watcher) bool { return other == w })
}

func (ws *watchers) closeGarage(garage string) {
	ws.drop(garage, func(*Watcher) bool { return true })
}

func (ws *watchers) closeDevice(garage, device string) {
	ws.drop(garage, func(w *Watcher) bool { return w.device == device })
}

func (ws *watchers) closeAll() {
	ws.mu.Lock()
	garages := make([]string, 0, len(ws.by))
	for g := range ws.by {
		garages = append(garages, g)
	}
	ws.mu.Unlock()
	for _, g := range garages {
		ws.closeGarage(g)
	}
}

func (ws *watchers) drop(garage string, which func(*Watcher) bool) {
	ws.mu.Lock()
	defer ws.mu.Unlock()
	for w := range ws.by[garage] {
		if which(w) {
			delete(ws.by[garage], w)
			close(w.Cursors)
		}
	}
	if len(ws.by[garage]) == 0 {
		delete(ws.by, garage)
	}
}

// tell gives everyone in a garage its newest cursor, without waiting for anyone.
func (ws *watchers) tell(garage, cursor string) {
	ws.mu.Lock()
	defer ws.mu.Unlock()
	for w := range ws.by[garage] {
		select {
		case <-w.Cursors: // an older one nobody took
		default:
		}
		w.Cursors <- cursor
	}
}
