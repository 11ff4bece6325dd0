package server

import (
	"crypto/tls"
	"os"
	"sync"
	"time"
)

// keyPair is a certificate in files that somebody else renews. It is read again
// when the file has changed; while the new one cannot be read, the old one goes
// on.
type keyPair struct {
	certFile, keyFile string

	mu      sync.Mutex
	loaded  *tls.Certificate
	changed time.Time // when the file had changed before it was loaded
}

func (k *keyPair) get(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	info, err := os.Stat(k.certFile)
	if err == nil && k.loaded != nil && info.ModTime().Equal(k.changed) {
		return k.loaded, nil
	}
	if err == nil {
		var fresh tls.Certificate
		if fresh, err = tls.LoadX509KeyPair(k.certFile, k.keyFile); err == nil {
			k.loaded, k.changed = &fresh, info.ModTime()
		}
	}
	if k.loaded != nil {
		return k.loaded, nil
	}
	return nil, err
}
