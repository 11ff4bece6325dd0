package server

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strconv"
	"strings"

	"github.com/rs/zerolog"

	"tautspan/server/caller"
)

// readFlags turns the command line of `tautspan serve` into what Run needs.
func readFlags(args []string, errs io.Writer) (*Config, error) {
	cfg := &Config{}
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.SetOutput(errs)
	flags.StringVar(&cfg.Addr, "addr", "", "address to listen on, HOST:PORT (default :8080, with HTTPS :443)")
	flags.StringVar(&cfg.DataDir, "data", dataFolder, "folder for the database")
	flags.Func("max-database-mib", "how large the database may grow, in MiB, at least 1 (default as large as the disk)", func(text string) (err error) {
		if cfg.MaxDatabaseMiB, err = strconv.ParseInt(text, 10, 32); err != nil || cfg.MaxDatabaseMiB < 1 {
			return errors.New("this must be a whole number from 1")
		}
		return nil
	})
	flags.BoolVar(&cfg.OpenRegistration, "open-registration", true, "anybody may found a garage here; =false for a private server")
	flags.BoolVar(&cfg.OpenMetrics, "open-metrics", false, "answer /metrics to other machines too")
	flags.Func("trusted-proxy", "addresses of proxies of yours, `ADDRESS[,…]`, that are believed in X-Forwarded-For and -Proto", func(text string) (err error) {
		cfg.Proxies, err = caller.Parse(text)
		return err
	})
	flags.Func("domain", "get certificates for these names, `NAME[,…]`, which must lead to this machine; you accept the authority's terms", func(text string) error {
		cfg.HTTPS.Domains = strings.Split(strings.ToLower(text), ",")
		return nil
	})
	flags.StringVar(&cfg.HTTPS.Directory, "acme-directory", "", "address of another certificate authority's directory (RFC 8555)")
	flags.StringVar(&cfg.HTTPS.CAFile, "acme-ca", "", "file with the roots to trust that directory by, PEM")
	flags.StringVar(&cfg.HTTPS.CertFile, "cert", "", "file with a certificate chain, PEM; read again when it changes")
	flags.StringVar(&cfg.HTTPS.KeyFile, "key", "", "file with its key, PEM")
	plain := flags.String("http-addr", "", "where plain HTTP leads to HTTPS, HOST:PORT or off (default :80 with HTTPS)")
	verbose := flags.Bool("verbose", false, "log every request")
	if err := flags.Parse(args); err != nil {
		return nil, err
	}
	level := zerolog.InfoLevel
	if *verbose {
		level = zerolog.DebugLevel
	}
	cfg.Log = zerolog.New(errs).Level(level).With().Timestamp().Logger()
	cfg.addresses(*plain)
	err := cfg.HTTPS.check()
	if flags.NArg() > 0 {
		err = fmt.Errorf("%q is not expected here", flags.Arg(0))
	}
	if err != nil {
		fmt.Fprintf(errs, "tautspan serve: %v\n", err)
	}
	return cfg, err
}

// addresses fills in where to listen unless somebody said otherwise.
func (cfg *Config) addresses(plain string) {
	addr, standard := ":8080", ""
	if cfg.HTTPS.on() {
		addr, standard = ":443", ":80"
	}
	if cfg.Addr == "" {
		cfg.Addr = addr
	}
	switch plain {
	case "":
		cfg.HTTPS.PlainAddr = standard
	case "off":
	default:
		cfg.HTTPS.PlainAddr = plain
	}
}
