package server

import (
	"context"
	"flag"
	"fmt"
	"io"
	"net"
	"runtime/debug"
	"strconv"

	"github.com/rs/zerolog"

	"tautspan/server/caller"
)

// dataFolder is where the database is unless somebody says otherwise.
const dataFolder = "tautspan-data"

// Command is `tautspan serve`: it reads the flags, serves until ctx is done and
// returns the exit status. Logs are JSON lines on errs.
func Command(ctx context.Context, args []string, errs io.Writer) int {
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.SetOutput(errs)
	addr := flags.String("addr", ":8080", "address to listen on, HOST:PORT")
	data := flags.String("data", dataFolder, "folder for the database")
	most := flags.Int64("max-database-mib", 0, "how large the database may grow, in MiB; 0 for as large as the disk")
	open := flags.Bool("open-registration", true, "anybody may found a garage here; =false for a private server")
	proxies := caller.Trusted{}
	flags.Func("trusted-proxy", "addresses of proxies of yours, `ADDRESS[,…]`, that are believed in X-Forwarded-For and -Proto", func(text string) (err error) {
		proxies, err = caller.Parse(text)
		return err
	})
	metrics := flags.Bool("open-metrics", false, "answer /metrics to other machines too")
	verbose := flags.Bool("verbose", false, "log every request")
	if err := flags.Parse(args); err != nil {
		return 2
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(errs, "tautspan serve: %q is not expected here\n", flags.Arg(0))
		return 2
	}
	level := zerolog.InfoLevel
	if *verbose {
		level = zerolog.DebugLevel
	}
	log := zerolog.New(errs).Level(level).With().Timestamp().Logger()
	err := Run(ctx, Config{
		Addr: *addr, DataDir: *data, MaxDatabaseMiB: *most, OpenRegistration: *open, Proxies: proxies, OpenMetrics: *metrics, Log: log,
	})
	if err != nil {
		log.Error().Err(err).Msg("the server stopped")
		return 1
	}
	return 0
}

// Version says which build this is: the module's version and the commit.
func Version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "tautspan (unknown build)"
	}
	version := "tautspan " + info.Main.Version
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			version += " " + s.Value
		}
	}
	return version
}

// openAt lists the addresses to type into a browser: this machine first, then
// those other devices on the local network can reach.
func openAt(listening *net.TCPAddr) []string {
	port := strconv.Itoa(listening.Port)
	if !listening.IP.IsUnspecified() {
		return []string{"http://" + net.JoinHostPort(listening.IP.String(), port)}
	}
	open := []string{"http://localhost:" + port}
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		return open // the first address is enough to begin with
	}
	for _, a := range addresses {
		if ip, ok := a.(*net.IPNet); ok && ip.IP.IsPrivate() && ip.IP.To4() != nil {
			open = append(open, "http://"+net.JoinHostPort(ip.IP.String(), port))
		}
	}
	return open
}
