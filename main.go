// Command tautspan is the whole program: the server with the app inside it, and
// the calculations from the shell.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"

	"tautspan/internal/engine"
	"tautspan/server"
)

const usage = `usage:
  tautspan [serve] [--addr HOST:PORT] [--data DIR]   serve the app (the default)
  tautspan calc NAME < request.json > response.json  one calculation; without NAME, list them
  tautspan version                                   say which version this is
`

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// run carries out one command and returns the exit status: 0 done, 2 the
// request or the command line was wrong, 1 anything else.
func run(ctx context.Context, args []string, in io.Reader, out, errs io.Writer) int {
	command := "serve"
	if len(args) > 0 && args[0][0] != '-' {
		command, args = args[0], args[1:]
	}
	switch command {
	case "serve":
		return server.Command(ctx, args, errs)
	case "calc":
		return calc(args, in, out, errs)
	case "version":
		fmt.Fprintln(out, server.Version())
		return 0
	}
	fmt.Fprintf(errs, "tautspan: there is no command %q\n%s", command, usage)
	return 2
}

func calc(args []string, in io.Reader, out, errs io.Writer) int {
	if len(args) == 0 {
		for _, c := range engine.Calculations() {
			fmt.Fprintf(out, "%-10s %s\n", c.Name, c.Summary)
		}
		return 0
	}
	request, err := io.ReadAll(io.LimitReader(in, engine.MaxRequestBytes+1))
	if err == nil {
		var response []byte
		if response, err = engine.Call(args[0], request); err == nil {
			fmt.Fprintf(out, "%s\n", response)
			return 0
		}
	}
	fmt.Fprintf(errs, "%s\n", engine.ErrorJSON(err))
	return 2
}
