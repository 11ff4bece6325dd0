// Command tautspan is the whole program: the server with the app inside it, and
// the calculations from the shell.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"

	"tautspan/internal/engine"
	"tautspan/server"
)

const usage = `usage:
  tautspan [serve] [--addr HOST:PORT] [--data DIR]   serve the app (the default)
  tautspan calc NAME < request.json > response.json  one calculation; without NAME, list them
  tautspan backup [--data DIR] --out FILE            write the database as one file, also while serving
  tautspan restore [--data DIR] --from FILE          make the database anew from such a file
  tautspan check [--data DIR]                        look whether the database is sound
  tautspan tidy [--data DIR] --exports DIR --silent-days N   export, then delete, what nobody calls any more
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
	if len(args) > 0 && !strings.HasPrefix(args[0], "-") {
		command, args = args[0], args[1:]
	}
	switch command {
	case "serve":
		return server.Command(ctx, args, errs)
	case "calc":
		return calc(args, in, out, errs)
	case "backup":
		return server.Backup(args, out, errs)
	case "restore":
		return server.Restore(args, out, errs)
	case "check":
		return server.Check(args, out, errs)
	case "tidy":
		return server.Tidy(args, out, errs)
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
