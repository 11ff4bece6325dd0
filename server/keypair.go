package server

import (
	"crypto/tls"
	"fmt"
	"os"
	"sync"
	"time"

	"github.com/rs/zerolog"
)

// keyPair is a certificate in files that somebody else renews. It is read again
// when the file has changed; while the new one cannot be read, the old one goes
// on. That, and a certificate past its end, is logged once.
type keyPair struct {
	certFile, keyFile string
	log               zerolog.Logger

	mu      sync.Mutex
	loaded  *tls.Certificate
	changed time.Time // when the file had changed before it was loaded
	said    string    // what was logged last
}

func (k *keyPair) get(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	err := k.load()
	if k.loaded == nil {
		return nil, err
	}
	if end := k.loaded.Leaf.NotAfter; err == nil && time.Now().After(end) {
		err = fmt.Errorf("%s has expired on %s: browsers refuse it; renew it, and it is read again", k.certFile, end.UTC().Format(time.RFC3339))
	}
	text := ""
	if err != nil {
		text = err.Error()
	}
	if text != "" && text != k.said {
		k.log.Warn().Err(err).Msg("the certificate needs care")
	}
	k.said = text
	return k.loaded, nil
}

// load reads the files unless they are as they were.
func (k *keyPair) load() error {
	info, err := os.Stat(k.certFile)
	if err != nil {
		return err
	}
	if k.loaded != nil && info.ModTime().Equal(k.changed) {
		return nil
	}
	fresh, err := tls.LoadX509KeyPair(k.certFile, k.keyFile)
	if err != nil {
		return fmt.Errorf("the certificate %s with the key %s cannot be used, both must be PEM and belong together: %w", k.certFile, k.keyFile, err)
	}
	k.loaded, k.changed = &fresh, info.ModTime()
	return nil
}
