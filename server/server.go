// Package server is the HTTP side of Tautspan: it wires routes, the embedded
// app and the logs, listens, and stops gracefully.
package server

import (
	"context"
	"errors"
	"log"
	"net"
	"net/http"
	"strings"
	"time"

	"github.com/gorilla/mux"
	"github.com/rs/zerolog"

	"tautspan/server/api"
	"tautspan/server/caller"
	"tautspan/server/store"
	"tautspan/server/web"
)

// Config is what a server needs to know.
type Config struct {
	Addr             string         // host:port to listen on; port 0 picks a free one
	DataDir          string         // where the database lives
	MaxDatabaseMiB   int64          // how large it may grow; 0 for as large as the disk
	OpenRegistration bool           // anybody may found a garage
	Proxies          caller.Trusted // of the operator's own, which tell who calls
	OpenMetrics      bool           // /metrics for everybody, not only for this machine
	HTTPS            HTTPS
	Log              zerolog.Logger
}

// Every phase of a connection has its own end.
const (
	headerTimeout   = 5 * time.Second
	readTimeout     = 20 * time.Second
	writeTimeout    = 40 * time.Second
	idleTimeout     = 90 * time.Second
	shutdownTimeout = 10 * time.Second
	maxHeaderBytes  = 16 << 10
)

// Run serves until ctx is done, then lets running requests finish. It logs one
// line with the address once it listens.
func Run(ctx context.Context, cfg Config) (err error) {
	quota := store.DefaultQuota()
	quota.DatabaseMiB = cfg.MaxDatabaseMiB
	garages, err := store.Open(cfg.DataDir, quota)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, garages.Close()) }()
	listener, err := net.Listen("tcp", cfg.Addr)
	if err != nil {
		return err
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	server := newServer(ctx, cfg, handler(cfg, garages, ctx.Done()))
	address := listener.Addr().(*net.TCPAddr)
	if cfg.HTTPS.on() {
		var plain http.Handler
		if server.TLSConfig, plain, err = cfg.HTTPS.secure(cfg.DataDir, address.Port, cfg.Log); err == nil && cfg.HTTPS.PlainAddr != "" {
			err = servePlain(ctx, cfg, plain)
		}
		if err != nil {
			return errors.Join(err, listener.Close())
		}
	}
	cfg.Log.Info().Str("address", address.String()).Strs("open", openAt(address, cfg.HTTPS)).Str("version", Version()).Msg("listening")
	if len(cfg.HTTPS.Domains) > 0 { // nobody waits for it, when stopping neither
		go fetchCertificates(ctx, cfg.Log, cfg.HTTPS.Domains, certificatePause, server.TLSConfig.GetCertificate)
	}
	stopped := make(chan error, 1)
	go func() {
		<-ctx.Done()
		deadline, cancel := context.WithTimeout(context.WithoutCancel(ctx), shutdownTimeout)
		defer cancel()
		stopped <- server.Shutdown(deadline)
	}()
	if server.TLSConfig != nil {
		err = server.ServeTLS(listener, "", "")
	} else {
		err = server.Serve(listener)
	}
	if !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return <-stopped
}

// newServer is a server whose every phase has its end, and which logs like the
// rest: what strangers' connections stumble over only when asked for.
func newServer(ctx context.Context, cfg Config, handler http.Handler) *http.Server {
	return &http.Server{
		Handler:           handler,
		ReadHeaderTimeout: headerTimeout,
		ReadTimeout:       readTimeout,
		WriteTimeout:      writeTimeout,
		IdleTimeout:       idleTimeout,
		MaxHeaderBytes:    maxHeaderBytes,
		ErrorLog:          log.New(debugLog{cfg.Log}, "", 0),
		BaseContext:       func(net.Listener) context.Context { return cfg.Log.WithContext(ctx) },
	}
}

// debugLog takes net/http's own lines.
type debugLog struct{ to zerolog.Logger }

func (d debugLog) Write(line []byte) (int, error) {
	d.to.Debug().Str("said", strings.TrimSpace(string(line))).Msg("connection")
	return len(line), nil
}

// handler wraps the whole router, so that answers of no route are logged and
// secured as well.
func handler(cfg Config, garages *store.Store, done <-chan struct{}) http.Handler {
	r := mux.NewRouter()
	api.Routes(r, web.Handler(), api.Config{
		Store: garages, Now: time.Now, Done: done,
		OpenRegistration: cfg.OpenRegistration, Proxies: cfg.Proxies, OpenMetrics: cfg.OpenMetrics,
	})
	return requestLog(cfg.Log)(secured(len(cfg.HTTPS.Domains) > 0, recovered(r)))
}
