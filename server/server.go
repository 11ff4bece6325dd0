// Package server is the HTTP side of Tautspan: it wires routes, the embedded
// app and the logs, listens, and stops gracefully.
package server

import (
	"context"
	"errors"
	"net"
	"net/http"
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
	server := &http.Server{
		Handler:           handler(cfg, garages, ctx.Done()),
		ReadHeaderTimeout: headerTimeout,
		ReadTimeout:       readTimeout,
		WriteTimeout:      writeTimeout,
		IdleTimeout:       idleTimeout,
		MaxHeaderBytes:    maxHeaderBytes,
		BaseContext:       func(net.Listener) context.Context { return cfg.Log.WithContext(ctx) },
	}
	address := listener.Addr().(*net.TCPAddr)
	cfg.Log.Info().Str("address", address.String()).Strs("open", openAt(address)).Msg("listening")
	stopped := make(chan error, 1)
	go func() {
		<-ctx.Done()
		deadline, cancel := context.WithTimeout(context.WithoutCancel(ctx), shutdownTimeout)
		defer cancel()
		stopped <- server.Shutdown(deadline)
	}()
	if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return <-stopped
}

// handler wraps the whole router, so that answers of no route are logged and
// secured as well.
func handler(cfg Config, garages *store.Store, done <-chan struct{}) http.Handler {
	r := mux.NewRouter()
	api.Routes(r, web.Handler(), api.Config{
		Store: garages, Now: time.Now, Done: done,
		OpenRegistration: cfg.OpenRegistration, Proxies: cfg.Proxies, OpenMetrics: cfg.OpenMetrics,
	})
	return requestLog(cfg.Log)(secured(recovered(r)))
}
