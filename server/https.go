package server

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/rs/zerolog"
	"golang.org/x/crypto/acme"
	"golang.org/x/crypto/acme/autocert"
	_ "golang.org/x/crypto/x509roots/fallback" // a bare machine has no roots of its own to trust an authority by
)

// HTTPS is where certificates come from: for domains of its own the server gets
// and renews them itself (RFC 8555); else they lie in two files. The zero value
// is plain HTTP.
type HTTPS struct {
	Domains   []string // names that lead to this machine
	Directory string   // of the certificate authority; empty for the one that is free for everybody
	CAFile    string   // roots to trust the directory by, PEM; empty for the system's
	CertFile  string   // chain, PEM
	KeyFile   string   // its key, PEM
	PlainAddr string   // host:port where plain HTTP leads to HTTPS; empty for none
}

func (h HTTPS) on() bool { return len(h.Domains) > 0 || h.CertFile != "" }

// check refuses half a choice, and two at once.
func (h HTTPS) check() error {
	switch {
	case (h.CertFile == "") != (h.KeyFile == ""):
		return errors.New("a certificate and its key go together: give both --cert and --key")
	case h.CertFile != "" && len(h.Domains) > 0:
		return errors.New("give either --domain, to get certificates from an authority, or --cert and --key, not both")
	case slices.ContainsFunc(h.Domains, notAName):
		return errors.New("--domain takes names such as bikes.example, with commas between and no blanks; no addresses, no ports")
	case len(h.Domains) == 0 && (h.Directory != "" || h.CAFile != ""):
		return errors.New("--acme-directory and --acme-ca say where certificates for --domain come from; they need it")
	case !h.on() && h.PlainAddr != "":
		return errors.New("--http-addr leads to HTTPS; it needs --domain, or --cert and --key")
	}
	return nil
}

// notAName reports whether a text is no name a public certificate could be for:
// two labels or more of letters, digits and, within, hyphens (RFC 1035 section
// 2.3.1), not an address.
func notAName(text string) bool {
	labels := strings.Split(text, ".")
	for _, label := range labels {
		if label == "" || len(label) > 63 || strings.Trim(label, "-") != label ||
			strings.Trim(label, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" {
			return true
		}
	}
	return len(labels) < 2 || net.ParseIP(text) != nil
}

// secure is HTTPS at work: how connections are protected, and who answers plain
// HTTP.
func (h HTTPS) secure(dataDir string, port int, log zerolog.Logger) (*tls.Config, http.Handler, error) {
	if err := h.check(); err != nil {
		return nil, nil, err
	}
	plain := toHTTPS(h.Domains, port)
	if len(h.Domains) == 0 {
		pair := &keyPair{certFile: h.CertFile, keyFile: h.KeyFile, log: log}
		if _, err := pair.get(nil); err != nil {
			return nil, nil, err
		}
		return &tls.Config{GetCertificate: pair.get, MinVersion: tls.VersionTLS12}, plain, nil
	}
	client := &acme.Client{DirectoryURL: h.Directory, UserAgent: "tautspan"}
	if h.Directory == "" {
		client.DirectoryURL = acme.LetsEncryptURL
	}
	if h.CAFile != "" {
		roots := x509.NewCertPool()
		text, err := os.ReadFile(h.CAFile)
		if err != nil {
			return nil, nil, err
		}
		if !roots.AppendCertsFromPEM(text) {
			return nil, nil, fmt.Errorf("%s holds no certificate in PEM", h.CAFile)
		}
		client.HTTPClient = &http.Client{Timeout: time.Minute, Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: roots}}}
	}
	manager := &autocert.Manager{
		Prompt: autocert.AcceptTOS, Cache: autocert.DirCache(filepath.Join(dataDir, "certificates")),
		HostPolicy: autocert.HostWhitelist(h.Domains...), Client: client,
	}
	config := manager.TLSConfig()
	config.MinVersion = tls.VersionTLS12
	return config, manager.HTTPHandler(plain), nil
}

// certificatePause is between two tries for a certificate: authorities count
// what fails, and wait for nobody who asks too often.
const certificatePause = 10 * time.Minute

// fetchCertificates gets each domain's certificate before the first caller needs
// it, who would not wait so long, and has it renewed from then on. It tries until
// it has them or ctx is done.
func fetchCertificates(ctx context.Context, log zerolog.Logger, domains []string, pause time.Duration,
	get func(*tls.ClientHelloInfo) (*tls.Certificate, error)) {
	for {
		domains = slices.DeleteFunc(slices.Clone(domains), func(name string) bool {
			// As a phone of today asks: an authority gives it a certificate with an elliptic key.
			_, err := get(&tls.ClientHelloInfo{ServerName: name, CipherSuites: []uint16{tls.TLS_ECDHE_ECDSA_WITH_AES_128_GCM_SHA256}})
			switch {
			case ctx.Err() != nil:
			case err != nil:
				log.Warn().Err(err).Str("domain", name).Stringer("again_in", pause).Msg("no certificate yet")
			default:
				log.Info().Str("domain", name).Msg("the certificate is there")
			}
			return err == nil
		})
		if len(domains) == 0 {
			return
		}
		select {
		case <-ctx.Done():
			return
		case <-time.After(pause):
		}
	}
}

// toHTTPS sends whoever came by plain HTTP to the same place by HTTPS. What
// carries a secret or changes something is refused instead, so that whoever made
// the mistake notices it.
func toHTTPS(domains []string, port int) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Cache-Control", "no-store")
		if r.Method != http.MethodGet && r.Method != http.MethodHead || r.Header.Get("Authorization") != "" {
			http.Error(w, "this address takes nothing over plain HTTP; use https://", http.StatusForbidden)
			return
		}
		host := r.Host
		if name, _, err := net.SplitHostPort(host); err == nil {
			host = name
		}
		host = strings.Trim(host, "[]") // of an IPv6 address
		if len(domains) > 0 && !slices.Contains(domains, host) {
			host = domains[0]
		}
		host = net.JoinHostPort(host, strconv.Itoa(port))
		if port == 443 {
			host = strings.TrimSuffix(host, ":443")
		}
		http.Redirect(w, r, "https://"+host+r.URL.RequestURI(), http.StatusPermanentRedirect)
	})
}

// servePlain answers plain HTTP until ctx is done.
func servePlain(ctx context.Context, cfg Config, handler http.Handler) error {
	listener, err := net.Listen("tcp", cfg.HTTPS.PlainAddr)
	if err != nil {
		return err
	}
	server := newServer(ctx, cfg, secured(false, handler))
	go func() { _ = server.Serve(listener) }() // ends with the shutdown below
	go func() {
		<-ctx.Done()
		_ = server.Close() // nobody waits for a redirect
	}()
	return nil
}
