package api

import (
	"net/http"
	"strconv"
	"sync"
	"sync/atomic"
	"time"

	"tautspan/internal/fault"
	"tautspan/server/caller"
)

// limiter lets each address do something so many times at once, then once per
// interval.
type limiter struct {
	mu    sync.Mutex
	burst int
	every time.Duration
	// free is when each address will have its whole burst again.
	free    map[string]time.Time
	refused atomic.Int64 // calls
}

func newLimiter(burst int, every time.Duration) *limiter {
	return &limiter{burst: burst, every: every, free: map[string]time.Time{}}
}

// maxAddresses bounds the memory of a limiter.
const maxAddresses = 100_000

// take returns how long to wait, 0 for "go on".
func (l *limiter) take(address string, now time.Time) time.Duration {
	l.mu.Lock()
	defer l.mu.Unlock()
	if len(l.free) >= maxAddresses {
		l.forget(now)
	}
	free := l.free[address]
	if free.Before(now) {
		free = now
	}
	free = free.Add(l.every)
	if wait := free.Sub(now) - time.Duration(l.burst)*l.every; wait > 0 {
		return wait
	}
	l.free[address] = free
	return 0
}

// forget drops the addresses that have their whole burst again, and everything
// if that made no room.
func (l *limiter) forget(now time.Time) {
	for address, free := range l.free {
		if !free.After(now) {
			delete(l.free, address)
		}
	}
	if len(l.free) >= maxAddresses {
		clear(l.free)
	}
}

// limited refuses a request over its address's limit and says when to come back.
func (a *actions) limited(l *limiter, w http.ResponseWriter, r *http.Request) error {
	wait := l.take(caller.Household(a.Proxies.Address(r)), a.Now())
	if wait == 0 {
		return nil
	}
	l.refused.Add(1)
	seconds := strconv.Itoa(int(wait/time.Second) + 1)
	w.Header().Set("Retry-After", seconds)
	return fault.New(fault.TooMany, "", "too many of these from one address; try again in "+seconds+" seconds")
}
