package server

import (
	"context"
	"io"
	"net"
	"runtime/debug"
	"strconv"

	"tautspan/server/web"
)

// dataFolder is where the database is unless somebody says otherwise.
const dataFolder = "tautspan-data"

// Command is `tautspan serve`: it reads the flags, serves until ctx is done and
// returns the exit status. Logs are JSON lines on errs.
func Command(ctx context.Context, args []string, errs io.Writer) int {
	cfg, err := readFlags(args, errs)
	if err != nil {
		return 2
	}
	if err := Run(ctx, *cfg); err != nil {
		cfg.Log.Error().Err(err).Msg("the server stopped")
		return 1
	}
	return 0
}

// Version says which build this is: the module's version, the commit, and the
// page inside, as the page shows it under Kit.
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
	if page := web.Version(); page != "" {
		version += " page " + page
	}
	return version
}

// openAt lists the addresses to type into a browser: the server's own domains;
// without any, this machine first, then those other devices on the local network
// can reach.
func openAt(listening *net.TCPAddr, https HTTPS) []string {
	scheme, port := "http://", strconv.Itoa(listening.Port)
	if https.on() {
		scheme = "https://"
	}
	at := func(host string) string {
		if https.on() && port == "443" {
			return scheme + host
		}
		return scheme + net.JoinHostPort(host, port)
	}
	open := []string{}
	for _, domain := range https.Domains {
		open = append(open, at(domain))
	}
	if len(open) > 0 {
		return open
	}
	if !listening.IP.IsUnspecified() {
		return []string{at(listening.IP.String())}
	}
	open = append(open, at("localhost"))
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		return open // the first address is enough to begin with
	}
	for _, a := range addresses {
		if ip, ok := a.(*net.IPNet); ok && ip.IP.IsPrivate() && ip.IP.To4() != nil {
			open = append(open, at(ip.IP.String()))
		}
	}
	return open
}
