//go:build linux

// Command smoke tries a released program on a bare root: a folder that holds the
// program and nothing else, not even a C library, as the root of its world. A
// program for another kind of processor runs in an emulator that lies beside it.
// It needs Linux and the right to change the root.
package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"time"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: smoke PROGRAM")
		os.Exit(2)
	}
	if err := try(os.Args[1]); err != nil {
		fmt.Fprintf(os.Stderr, "smoke: %s on a bare root: %v\n", os.Args[1], err)
		os.Exit(1)
	}
	fmt.Printf("%s serves, calculates, syncs and backs up on a bare root\n", os.Args[1])
}

// bare is a root with a program in it.
type bare struct {
	root   string
	prefix []string // the emulator, where one is needed
}

var emulators = map[string]string{"arm64": "qemu-aarch64-static", "amd64": "qemu-x86_64-static"}

func try(program string) (err error) {
	root, err := os.MkdirTemp("", "bare")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(root)) }()
	b := &bare{root: root}
	if err := put(program, filepath.Join(root, "tautspan")); err != nil {
		return err
	}
	if arch := program[strings.LastIndexByte(program, '-')+1:]; arch != runtime.GOARCH {
		emulator, err := exec.LookPath(emulators[arch])
		if err != nil {
			return err
		}
		if err := put(emulator, filepath.Join(root, "emulator")); err != nil {
			return err
		}
		b.prefix = []string{"/emulator"}
	}
	server := b.command("serve", "--addr", "127.0.0.1:0", "--data", "/data")
	url, err := begin(server)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, server.Process.Signal(os.Interrupt), server.Wait()) }()
	if err := use(url); err != nil {
		return err
	}
	for _, args := range [][]string{{"backup", "--data", "/data", "--out", "/copy.db"}, {"check", "--data", "/data"}, {"version"}} {
		if out, err := b.command(args...).CombinedOutput(); err != nil {
			return fmt.Errorf("%v: %w: %s", args, err, out)
		}
	}
	return nil
}

func put(from, to string) error {
	content, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	return os.WriteFile(to, content, 0o755)
}

func (b *bare) command(args ...string) *exec.Cmd {
	all := append(append(append([]string{}, b.prefix...), "/tautspan"), args...)
	return &exec.Cmd{Path: all[0], Args: all, Dir: "/", Env: []string{}, SysProcAttr: &syscall.SysProcAttr{Chroot: b.root}}
}

// begin starts a server and returns its address, which it logs.
func begin(server *exec.Cmd) (string, error) {
	logs, err := server.StderrPipe()
	if err != nil {
		return "", err
	}
	if err := server.Start(); err != nil {
		return "", err
	}
	scan, said := bufio.NewScanner(logs), ""
	for scan.Scan() {
		var line struct{ Address string }
		if json.Unmarshal(scan.Bytes(), &line) == nil && line.Address != "" {
			go func() { _, _ = io.Copy(io.Discard, logs) }()
			return "http://" + line.Address, nil
		}
		said += scan.Text() + "\n"
	}
	return "", errors.Join(errors.New("the server did not come up: "+said), server.Wait())
}

// use asks for what a phone asks for.
func use(url string) error {
	reading := `{"drive":"single","reading":{"kind":"compare","pitches":100,"growth_mm":3}}`
	made := map[string]any{}
	for _, step := range []struct {
		method, path, body, want string
		status                   int
	}{
		{"GET", "/healthz", "", `"ok":true`, 200},
		{"GET", "/readyz", "", `"ok":true`, 200},
		{"GET", "/", "", "tautspan-build", 200},
		{"POST", "/api/v1/calc/wear", reading, `"verdict"`, 200},
		{"POST", "/api/v1/garages", `{"name":"G","device_name":"p"}`, "token", 201},
		{"POST", "/api/v1/garages/{id}/sync", `{"cursor":"","ops":[]}`, `"cursor"`, 200},
	} {
		r, err := http.NewRequest(step.method, url+strings.ReplaceAll(step.path, "{id}", fmt.Sprint(made["garage_id"])), strings.NewReader(step.body))
		if err != nil {
			return err
		}
		r.Header.Set("Authorization", fmt.Sprint("Bearer ", made["token"]))
		client := &http.Client{Timeout: time.Minute}
		resp, err := client.Do(r)
		if err != nil {
			return err
		}
		answer, err := io.ReadAll(resp.Body)
		if err := errors.Join(err, resp.Body.Close()); err != nil {
			return err
		}
		if resp.StatusCode != step.status || !bytes.Contains(answer, []byte(step.want)) {
			return fmt.Errorf("%s %s answered %d: %.300s", step.method, step.path, resp.StatusCode, answer)
		}
		if step.status == http.StatusCreated {
			if err := json.Unmarshal(answer, &made); err != nil {
				return err
			}
		}
	}
	return nil
}
